import { beforeAll, describe, expect, it } from 'vitest';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { Fault } from '#core/fault/fault.ts';
import { EMPTY_CHAIN } from '#core/record/chain.ts';
import { followLine } from '#core/record/follow-chain.ts';
import { blockBody, OPENED_BODY, RecordLines, TEST_BODY } from '#tests/support/record-lines.ts';

/** Number of the first line that does not hold, or null. */
function firstBad(lines: readonly Uint8Array[]): number | null {
  let chain = EMPTY_CHAIN;
  for (const bytes of lines) {
    try {
      chain = followLine(chain, bytes, sha256Hex).chain;
    } catch (error) {
      if (error instanceof Fault) return chain.next;
      throw error;
    }
  }
  return null;
}

describe('following the chain', () => {
  const record = new RecordLines();
  beforeAll(() => {
    record.add('test-opened', TEST_BODY);
    record.add('stream-opened', OPENED_BODY, 'device');
    record.add('samples', blockBody(1, 0), 'device');
    record.add('samples', blockBody(2, 10), 'device');
    record.add('remark', { text: 'calm', line: null }, 'witness');
  });

  it('holds from the first line to the last', () => {
    expect(firstBad(record.lines)).toBeNull();
  });

  it('finds a flipped bit in any byte, at the latest one line on', () => {
    for (const [number, bytes] of record.lines.slice(0, -1).entries())
      for (let at = 0; at < bytes.length; at += 1) {
        const flipped = Uint8Array.from(bytes);
        flipped[at] = (flipped[at] ?? 0) ^ (1 << (at % 8));
        const bad = firstBad(record.lines.with(number, flipped));
        expect([number, at, bad === number || bad === number + 1]).toEqual([number, at, true]);
      }
  });

  it('finds a line removed, doubled or swapped', () => {
    for (let number = 0; number < record.lines.length - 1; number += 1) {
      expect(firstBad(record.lines.toSpliced(number, 1))).toBe(number);
      expect(firstBad(record.lines.toSpliced(number, 0, record.lines[number]!))).toBe(number + 1);
      const swapped = record.lines
        .with(number, record.lines[number + 1]!)
        .with(number + 1, record.lines[number]!);
      expect(firstBad(swapped)).toBe(number);
    }
  });

  it('lets a record begin with its opening and have no second one', () => {
    const late = new RecordLines();
    late.add('record-opened', { record: 'again', format: 1, program: 'test' });
    expect(firstBad(late.lines)).toBe(1);
  });
});
