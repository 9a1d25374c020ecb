import { describe, expect, it } from 'vitest';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { Fault } from '#core/fault/fault.ts';
import { EMPTY_CHAIN } from '#core/record/chain.ts';
import { followLine } from '#core/record/follow-chain.ts';
import {
  RECEIPT_WORDS,
  type Receipt,
  ReceiptCheck,
  receiptOf,
  receiptOfText,
  receiptText,
} from '#core/record/receipt.ts';
import { rechained } from '#tests/support/rechained.ts';
import { RecordLines } from '#tests/support/record-lines.ts';

function codeOf(attempt: () => unknown): string | null {
  try {
    attempt();
    return null;
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
}

function refusal(lines: readonly Uint8Array[], receipt: Receipt): string | null {
  const check = new ReceiptCheck(receipt);
  let chain = EMPTY_CHAIN;
  for (const bytes of lines) {
    const followed = followLine(chain, bytes, sha256Hex);
    check.follow(followed.read.line);
    chain = followed.chain;
  }
  return codeOf(() => check.end(chain));
}

function day(): RecordLines {
  const record = new RecordLines();
  for (let k = 0; k < 12; k++) record.add('remark', { text: `remark ${k}`, line: null });
  return record;
}

describe('a receipt', () => {
  const record = day();
  const receipt = receiptOf({ lines: record.chain.next, head: record.chain.head });

  it('is a number and eight words, read back from what a person types', () => {
    expect(receipt.words).toHaveLength(RECEIPT_WORDS);
    const text = receiptText(receipt);
    expect(receiptOfText(text)).toEqual(receipt);
    const typed = `line ${receipt.lines}: ${receipt.words.map((word) => word.slice(0, 4)).join(', ')}`;
    expect(receiptOfText(typed.toUpperCase())).toEqual(receipt);
  });

  it.each(['', 'harbor ladder', '12', `12 ${'zoo '.repeat(7)}`, `12 ${'zoo '.repeat(9)}`])(
    'is not %j',
    (text) => expect(codeOf(() => receiptOfText(text))).toBe('receipt-not-read'),
  );

  it('holds for the record it is of, also when it has grown since', () => {
    expect(refusal(record.lines, receipt)).toBeNull();
    record.add('remark', { text: 'later', line: null });
    expect(refusal(record.lines, receipt)).toBeNull();
  });

  it('does not hold for one chained anew from any changed line on, nor for one cut short', () => {
    for (let changed = 1; changed < receipt.lines; changed++)
      expect(refusal(rechained(day().lines, changed), receipt)).toBe('record-chain');
    expect(refusal(day().lines.slice(0, -1), receipt)).toBe('record-chain');
    expect(refusal(rechained([...record.lines], receipt.lines), receipt)).toBeNull();
  });
});
