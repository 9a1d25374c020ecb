import { describe, expect, it } from 'vitest';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { Fault } from '#core/fault/fault.ts';
import { readLine } from '#core/record/read-line.ts';
import { EMPTY_EXCERPT, excerptLine, followExcerpt } from '#core/report/excerpt.ts';
import { everyKindRecord } from '#tests/support/every-kind-record.ts';

const record = everyKindRecord(3);
const excerpt = record.lines.map((bytes) => {
  const { line } = readLine(bytes, 'test');
  return excerptLine(line, bytes, sha256Hex);
});
const follow = (lines: readonly Uint8Array[]) =>
  lines.reduce((known, bytes) => followExcerpt(known, bytes, sha256Hex), EMPTY_EXCERPT);

describe('the lines without their samples', () => {
  it('still check, and end in the record’s own head', () => {
    const { lines, head, leftOut } = follow(excerpt);
    expect(lines).toBe(record.chain.next);
    expect(head).toBe(record.chain.head);
    // Three blocks and one photograph.
    expect(leftOut).toBe(4);
    expect(excerpt.some((bytes) => Buffer.from(bytes).includes('"kind":"samples"'))).toBe(false);
  });

  it('show a line that was changed, taken out or moved', () => {
    const changed = excerpt.with(
      1,
      Buffer.from(Buffer.from(excerpt[1]!).toString().replace('Marram', 'Murram')),
    );
    expect(Buffer.compare(changed[1]!, excerpt[1]!)).not.toBe(0);
    expect(() => follow(changed)).toThrow(Fault);
    expect(() => follow(excerpt.toSpliced(5, 1))).toThrow(/record-chain/);
    const left = excerpt.findIndex((bytes) => Buffer.from(bytes).includes('leftOut'));
    const other = Buffer.from(`{"leftOut":${left},"sha256":"${'0'.repeat(64)}"}\n`);
    expect(() => follow(excerpt.with(left, other))).toThrow(/record-chain/);
    expect(() => follow([Buffer.from('{}\n')])).toThrow(/record-line/);
  });
});
