import { z } from 'zod';
import { textFromUtf8 } from '../digest/utf-8.ts';
import { Fault } from '../fault/fault.ts';
import { isSampleBlock } from '../sample/sample-block-form.ts';
import { jsonTextSeen, keysIn } from './guard-json.ts';
import { LINE_BODIES, type Line, type LineKind, lineEnvelope, MOST_LINE_BYTES } from './line.ts';

const NEWLINE = 0x0a;
const STRING = '"(?:[^"\\\\]|\\\\.)*"';
/** The envelope in its exact order, up to where the body begins. */
const ENVELOPE = new RegExp(
  `^\\{"n":(\\d{1,15}),"kind":(${STRING}),"v":(\\d{1,9}),"prev":(${STRING}),"wall":(${STRING}),` +
    `"receiverS":(-?[0-9.eE+-]{1,30}),"author":(${STRING}),"role":(${STRING}),"body":`,
);
/** n, kind, v, prev, wall, receiverS, author, role and body. */
const ENVELOPE_KEYS = 9;
const versionOnly = z.looseObject({ v: z.number().int().min(2) });

/** A line as read, with the exact text of its body (of a stream item: the item's own bytes). */
export interface LineRead {
  readonly line: Line;
  readonly bodyText: string;
}

/**
 * One line of a record that may come from anyone: length, UTF-8, nesting and keys are looked at
 * before it is parsed, then its form. `bytes` end in the newline; `where` names it in the fault.
 * Throws `record-newer` for a version, kind or field of a later program, `record-line` for all else.
 */
export function readLine(bytes: Uint8Array, where: string): LineRead {
  const text = lineText(bytes, where);
  const { danger, keys } = jsonTextSeen(text);
  if (danger !== null) throw new Fault('record-line', where, danger);
  const match = ENVELOPE.exec(text);
  if (match === null || Number(match[3]) > 1) throw notOurEnvelope(text, where);
  const envelope = lineEnvelope.safeParse(envelopeOf(match, where));
  if (!envelope.success) throw new Fault('record-line', where, firstProblem(envelope.error));
  const kind = envelope.data.kind;
  if (!isLineKind(kind)) throw new Fault('record-newer', where, `kind ${JSON.stringify(kind)}`);
  // Envelope and body are parsed apart, so that nothing after the body can speak twice.
  const bodyText = text.slice(match[0].length, -1);
  if (!text.endsWith('}')) throw new Fault('record-line', where, 'not closed');
  const value = parsed(bodyText, where);
  const isBlock = kind === 'samples' && isSampleBlock(value);
  const bodyKeys = isBlock ? Object.keys(value).length : keysIn(value);
  if (bodyKeys + ENVELOPE_KEYS !== keys)
    throw new Fault('record-line', where, 'a key stands twice');
  const body = isBlock ? value : bodyOf(kind, value, where);
  // The kind chose the form that the body was held to, which TypeScript cannot follow.
  return { line: { ...envelope.data, body } as Line, bodyText };
}

function bodyOf(kind: LineKind, value: unknown, where: string): unknown {
  const body = LINE_BODIES[kind].safeParse(value);
  const unknown = body.error?.issues.find(({ code }) => code === 'unrecognized_keys');
  if (unknown !== undefined) throw new Fault('record-newer', where, `${kind}: ${unknown.message}`);
  if (!body.success) throw new Fault('record-line', where, `${kind}: ${firstProblem(body.error)}`);
  return body.data;
}

function lineText(bytes: Uint8Array, where: string): string {
  if (bytes.length > MOST_LINE_BYTES)
    throw new Fault('record-line', where, `over ${MOST_LINE_BYTES} bytes`);
  if (bytes.length === 0 || bytes[bytes.length - 1] !== NEWLINE)
    throw new Fault('record-line', where, 'no newline at its end');
  const text = textFromUtf8(bytes.subarray(0, bytes.length - 1));
  if (text === null) throw new Fault('record-line', where, 'not UTF-8');
  return text;
}

function envelopeOf(match: RegExpExecArray, where: string): Record<string, unknown> {
  const group = (index: number) => parsed(match[index] ?? 'null', where);
  return {
    n: group(1),
    kind: group(2),
    v: group(3),
    prev: group(4),
    wall: group(5),
    receiverS: group(6),
    author: group(7),
    role: group(8),
    body: null,
  };
}

function notOurEnvelope(text: string, where: string): Fault {
  const newer = versionOnly.safeParse(parsed(text, where));
  if (newer.success) return new Fault('record-newer', where, `version ${newer.data.v}`);
  return new Fault('record-line', where, 'the fields are not those of a line');
}

function parsed(text: string, where: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    throw new Fault('record-line', where, 'not JSON');
  }
}

function isLineKind(kind: string): kind is LineKind {
  return Object.hasOwn(LINE_BODIES, kind);
}

function firstProblem(error: z.ZodError): string {
  const issue = error.issues[0];
  if (issue === undefined) return 'not of the agreed form';
  return `${issue.path.map(String).join('.') || 'line'}: ${issue.message}`.slice(0, 300);
}
