import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { chainAfter, EMPTY_CHAIN } from '#core/record/chain.ts';
import { followLine } from '#core/record/follow-chain.ts';
import { KnownHeadCheck } from '#core/record/known-head.ts';
import { LINE_BODIES } from '#core/record/line.ts';
import { everyKindRecord, kindsOf } from '#tests/support/every-kind-record.ts';
import { randomFromSeed } from '#tests/support/seeded.ts';

const digest = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
const record = everyKindRecord();
const { lines } = record;
const known = { lines: lines.length, head: record.chain.head };
/** The chain before each line, so that a sweep need not begin at line 0 every time. */
const chains = [EMPTY_CHAIN];
for (const bytes of lines) chains.push(chainAfter(chains.at(-1)!, bytes, digest));

/** Bytes split at newlines, as a file is. */
function split(bytes: Uint8Array): Uint8Array[] {
  const found: Uint8Array[] = [];
  let from = 0;
  for (let at = 0; at < bytes.length; at++)
    if (bytes[at] === 0x0a) {
      found.push(bytes.subarray(from, at + 1));
      from = at + 1;
    }
  if (from < bytes.length) found.push(bytes.subarray(from));
  return found;
}

/** Number of the first line that does not hold, from line `from` on; null when the head stands. */
function firstNotHeld(from: number, rest: readonly Uint8Array[]): number | null {
  let chain = chains[from]!;
  const check = new KnownHeadCheck(known);
  try {
    for (const bytes of rest) {
      const followed = followLine(chain, bytes, digest);
      check.follow(followed.read.line);
      chain = followed.chain;
    }
    check.end(chain);
    return null;
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return Number(/^line (\d+)/.exec(error.report.where)?.[1]);
  }
}

/** The damaged line, and one whole line after it to show what cannot be seen in itself. */
function sweepOf(k: number, damaged: Uint8Array): number | null {
  const next = lines[k + 1];
  return firstNotHeld(k, split(next === undefined ? damaged : Buffer.concat([damaged, next])));
}

describe('a record against its head, over every line', () => {
  it('has a line of every kind and holds as it is', () => {
    expect([...kindsOf(record)].sort()).toEqual(Object.keys(LINE_BODIES).sort());
    expect(firstNotHeld(0, lines)).toBeNull();
  });

  it('finds a bit flipped in any byte, in that line or the one after it', () => {
    const random = randomFromSeed(12);
    for (const [k, bytes] of lines.entries())
      for (let at = 0; at < bytes.length; at++) {
        const damaged = Uint8Array.from(bytes);
        damaged[at]! ^= 1 << Math.floor(random() * 8);
        const found = sweepOf(k, damaged);
        if (found !== k && found !== k + 1) expect.fail(`line ${k}, byte ${at}: found ${found}`);
      }
  }, 60_000);

  it('finds every bit of the last line', () => {
    const k = lines.length - 1;
    for (let at = 0; at < lines[k]!.length; at++)
      for (let bit = 0; bit < 8; bit++) {
        const damaged = Uint8Array.from(lines[k]!);
        damaged[at]! ^= 1 << bit;
        expect([k, k + 1], `byte ${at} bit ${bit}`).toContain(sweepOf(k, damaged));
      }
  });

  it('finds each line removed, doubled, swapped with its neighbour, and foreign lines put in', () => {
    for (const [k, bytes] of lines.entries()) {
      const rest = lines.slice(k + 1);
      // Taken off the end it shows at the line that is missing.
      expect(firstNotHeld(k, rest), `line ${k} removed`).toBe(k);
      expect(firstNotHeld(k, [bytes, bytes, ...rest]), `line ${k} doubled`).toBe(k + 1);
      const [next, ...after] = rest;
      if (next !== undefined)
        expect(firstNotHeld(k, [next, bytes, ...after]), `line ${k} swapped`).toBe(k);
      const foreign = everyKindRecord(1).lines[1]!;
      if (k !== 1) expect(firstNotHeld(k, [foreign, bytes, ...rest])).toBe(k);
    }
  }, 60_000);

  it('finds the record cut at any byte of any line', () => {
    for (const [k, bytes] of lines.entries())
      for (let length = 0; length < bytes.length; length++)
        expect(firstNotHeld(k, length === 0 ? [] : [bytes.subarray(0, length)])).toBe(k);
  }, 60_000);
});
