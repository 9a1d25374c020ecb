import { describe, expect, it } from 'vitest';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { Fault } from '#core/fault/fault.ts';
import { EMPTY_CHAIN } from '#core/record/chain.ts';
import { followLine } from '#core/record/follow-chain.ts';
import { type KnownHead, KnownHeadCheck } from '#core/record/known-head.ts';
import { RecordLines } from '#tests/support/record-lines.ts';

function record(word: string, remarks = 5): RecordLines {
  const lines = new RecordLines();
  for (let k = 0; k < remarks; k++)
    lines.add('remark', { text: k < 3 ? 'same' : word, line: null });
  return lines;
}

function whereNotHeld(lines: readonly Uint8Array[], known: KnownHead): string | null {
  const check = new KnownHeadCheck(known);
  let chain = EMPTY_CHAIN;
  for (const bytes of lines) {
    const followed = followLine(chain, bytes, sha256Hex);
    check.follow(followed.read.line);
    chain = followed.chain;
  }
  try {
    check.end(chain);
    return null;
  } catch (error) {
    if (error instanceof Fault) return error.report.where;
    throw error;
  }
}

describe('a head known from elsewhere', () => {
  const whole = record('whole');
  const known = { lines: whole.lines.length, head: whole.chain.head };

  it('is held by the record it is of, also when more lines have come since', () => {
    expect(whereNotHeld(whole.lines, known)).toBeNull();
    const later = record('whole', 9);
    expect(whereNotHeld(later.lines, known)).toBeNull();
  });

  it('shows every number of whole lines taken off the end, which the chain alone cannot', () => {
    for (let left = 1; left < known.lines; left++)
      expect(whereNotHeld(whole.lines.slice(0, left), known)).toBe(`line ${left}`);
  });

  it('shows an end written anew with a chain that holds', () => {
    expect(whereNotHeld(record('other').lines, known)).toBe('line 5');
    expect(whereNotHeld(record('other', 9).lines, known)).toBe('line 5');
  });
});
