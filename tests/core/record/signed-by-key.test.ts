import { describe, expect, it } from 'vitest';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { Fault } from '#core/fault/fault.ts';
import { EMPTY_CHAIN } from '#core/record/chain.ts';
import { followLine } from '#core/record/follow-chain.ts';
import {
  isSigned,
  receiptSignedText,
  SignedCheck,
  sealSignedText,
} from '#core/record/signed-by-key.ts';
import { PersonKey } from '#tests/support/person-key.ts';
import { rechained } from '#tests/support/rechained.ts';
import { RecordLines } from '#tests/support/record-lines.ts';

const WITNESS = new PersonKey('witness');

function signedDay(): { record: RecordLines; receipt: number; seal: number } {
  const record = new RecordLines();
  for (let k = 0; k < 4; k++) record.add('remark', { text: `remark ${k}`, line: null });
  const { next: lines, head } = record.chain;
  const receipt = record.add('receipt-taken', WITNESS.receipt('test-record', { lines, head }));
  record.add('remark', { text: 'between', line: null });
  const seal = record.add('seal', { reason: 'done' });
  record.add('signature', WITNESS.signature('test-record', seal, record.chain.head));
  record.add('remark', { text: 'after', line: null });
  return { record, receipt, seal };
}

function whereBroken(lines: readonly Uint8Array[]): string | null {
  const check = new SignedCheck();
  let chain = EMPTY_CHAIN;
  try {
    for (const bytes of lines) {
      const followed = followLine(chain, bytes, sha256Hex);
      check.follow(followed.read.line);
      chain = followed.chain;
    }
    return null;
  } catch (error) {
    if (error instanceof Fault && error.code === 'record-signature') return error.report.where;
    throw error;
  }
}

describe('receipts and signatures in a record', () => {
  const { record, receipt, seal } = signedDay();

  it('hold for the lines they are of', () => {
    expect(whereBroken(record.lines)).toBeNull();
  });

  it('show a record chained anew from any changed line before them', () => {
    for (let changed = 1; changed < receipt; changed++)
      expect(whereBroken(rechained(record.lines, changed))).toBe(`line ${receipt}`);
    for (let changed = receipt; changed <= seal; changed++)
      expect(whereBroken(rechained(record.lines, changed))).toBe(`line ${seal + 1}`);
  });

  it('show one that is of another record, of another line, or by another key', () => {
    const other = new PersonKey('other');
    const kinds: [string, (record: RecordLines) => void][] = [
      [
        'receipt of another record',
        (to) => {
          const { next: lines, head } = to.chain;
          to.add('receipt-taken', WITNESS.receipt('other-record', { lines, head }));
        },
      ],
      [
        'receipt of lines that are not yet there',
        (to) => {
          to.add(
            'receipt-taken',
            WITNESS.receipt('test-record', { lines: 99, head: to.chain.head }),
          );
        },
      ],
      [
        'receipt under another key',
        (to) => {
          const { next: lines, head } = to.chain;
          const body = WITNESS.receipt('test-record', { lines, head });
          to.add('receipt-taken', { ...body, publicKey: other.publicKey });
        },
      ],
      [
        'signature of the seal itself not yet followed',
        (to) => {
          to.add('signature', WITNESS.signature('test-record', to.chain.next + 5, to.chain.head));
        },
      ],
    ];
    for (const [name, add] of kinds) {
      const lines = new RecordLines();
      lines.add('remark', { text: 'one', line: null });
      add(lines);
      expect([name, whereBroken(lines.lines)]).toEqual([name, 'line 2']);
    }
  });

  it('a signature of a receipt is none of a seal', () => {
    const seen = { record: 'r', number: 3, digest: 'ab'.repeat(32) };
    const { signature, publicKey } = WITNESS.receipt('r', { lines: 3, head: seen.digest });
    expect(isSigned(receiptSignedText(seen), signature, publicKey)).toBe(true);
    expect(isSigned(sealSignedText(seen), signature, publicKey)).toBe(false);
    expect(isSigned(receiptSignedText(seen), `${signature.slice(0, -1)}!`, publicKey)).toBe(false);
  });
});
