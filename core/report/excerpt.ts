import { utf8FromText } from '../digest/utf-8.ts';
import { Fault } from '../fault/fault.ts';
import { FIRST_PREV, type LineKind } from '../record/line.ts';

/** Kinds that fill a record and stand in an excerpt by digest alone; photographs stand in the report. */
const LEFT_OUT: ReadonlySet<LineKind> = new Set(['samples', 'photograph']);

/**
 * One line of an excerpt: the record's own bytes, or of a block of samples or a photograph
 * `{"leftOut":812,"sha256":"..."}`, the digest that the next line of the record names as `prev`.
 */
export function excerptLine(
  line: { readonly n: number; readonly kind: LineKind },
  bytes: Uint8Array,
  sha256Hex: (bytes: Uint8Array) => string,
): Uint8Array {
  if (!LEFT_OUT.has(line.kind)) return bytes;
  return utf8FromText(`{"leftOut":${line.n},"sha256":"${sha256Hex(bytes)}"}\n`);
}

const STANDS_FOR = /^\{"leftOut":(\d{1,15}),"sha256":"([0-9a-f]{64})"\}\n$/;
const NAMES = /^\{"n":(\d{1,15}),"kind":"[a-z-]{1,40}","v":1,"prev":"([0-9a-f]{64})",/;

/** What is known of an excerpt up to its last line. */
export interface ExcerptHead {
  readonly lines: number;
  /** Digest the next line names. */
  readonly head: string;
  readonly leftOut: number;
}

export const EMPTY_EXCERPT: ExcerptHead = { lines: 0, head: FIRST_PREV, leftOut: 0 };

/**
 * Follows one line of an excerpt: numbers go up by one, and each line names the digest of the one
 * before it, left out or not. What a left-out block itself names, only the record shows: an excerpt
 * is proven by its record, or by a receipt of it. Throws `record-chain`, `record-line`.
 */
export function followExcerpt(
  known: ExcerptHead,
  bytes: Uint8Array,
  sha256Hex: (bytes: Uint8Array) => string,
): ExcerptHead {
  const text = new TextDecoder().decode(bytes);
  const where = `line ${known.lines}`;
  const left = STANDS_FOR.exec(text);
  const named = left === null ? NAMES.exec(text) : null;
  const number = left?.[1] ?? named?.[1];
  if (number === undefined)
    throw new Fault('record-line', where, 'neither a line nor a left-out block');
  if (Number(number) !== known.lines)
    throw new Fault('record-chain', where, `the line here is numbered ${number}`);
  if (named !== null && named[2] !== known.head)
    throw new Fault(
      'record-chain',
      where,
      `it follows ${named[2]}, the line before it is ${known.head}`,
    );
  return {
    lines: known.lines + 1,
    head: left?.[2] ?? sha256Hex(bytes),
    leftOut: known.leftOut + (left === null ? 0 : 1),
  };
}
