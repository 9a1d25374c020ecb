import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { EMPTY_CHAIN } from '#core/record/chain.ts';
import { followLine } from '#core/record/follow-chain.ts';
import type { LineRead } from '#core/record/read-line.ts';
import type { StreamItem } from '#core/sample/stream-item.ts';

const ITEM_KINDS = new Set([
  'stream-opened',
  'samples',
  'board-clock',
  'stream-fault',
  'stream-closed',
]);

/** The lines of a record's file; proves the chain on the way. */
export function linesOf(path: string): LineRead[] {
  const lines: LineRead[] = [];
  let chain = EMPTY_CHAIN;
  for (const text of readFileSync(path, 'utf8').split(/(?<=\n)/)) {
    // A kill may leave the last line unfinished; nothing of it was promised.
    if (!text.endsWith('\n')) break;
    const followed = followLine(chain, Buffer.from(text), sha256Hex);
    chain = followed.chain;
    lines.push(followed.read);
  }
  return lines;
}

/** Every item of the record, once each, with the digest of its bytes. */
export function itemsOf(path: string): Map<string, string> {
  const items = new Map<string, string>();
  for (const { line, bodyText } of linesOf(path)) {
    if (!ITEM_KINDS.has(line.kind)) continue;
    const { stream, number } = line.body as { stream: string; number: number };
    const name = `${stream} ${number}`;
    if (items.has(name)) throw new Error(`${name} stands twice`);
    items.set(name, createHash('sha256').update(bodyText).digest('hex'));
  }
  return items;
}

/** What the record holds of one stream. */
export interface HeldStream {
  readonly stream: string;
  readonly items: readonly StreamItem[];
  /** Sequence numbers of all samples: the board counts every scan it makes. */
  readonly sequences: readonly number[];
}

/** The streams of a record in the order they begin; throws where an item is missing or stands twice. */
export function streamsOf(path: string): HeldStream[] {
  const streams = new Map<string, { items: StreamItem[]; sequences: number[] }>();
  for (const { line } of linesOf(path)) {
    if (!ITEM_KINDS.has(line.kind)) continue;
    const item = line.body as StreamItem;
    const held = streams.get(item.stream) ?? { items: [], sequences: [] };
    streams.set(item.stream, held);
    if (item.number !== held.items.length)
      throw new Error(`${item.stream}: ${item.number} where ${held.items.length} was due`);
    held.items.push(item);
    if (item.type === 'samples') held.sequences.push(...sequencesOf(item));
  }
  return [...streams].map(([stream, held]) => ({ stream, ...held }));
}

function sequencesOf(block: Extract<StreamItem, { type: 'samples' }>): number[] {
  let sequence = block.firstSequence;
  return block.stepUs.map((_, k) => {
    sequence += k === 0 ? 0 : (block.stepSequence?.[k] ?? 1);
    return sequence;
  });
}

/** Places where a sequence does not go on by one: samples the board took and the record lacks. */
export function holesOf({ sequences }: HeldStream): string[] {
  return sequences.flatMap((sequence, k) => {
    const before = sequences[k - 1] ?? sequence - 1;
    return sequence === before + 1 ? [] : [`${sequence} after ${before}`];
  });
}
