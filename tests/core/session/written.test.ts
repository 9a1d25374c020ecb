import { expect, it } from 'vitest';
import { readLine } from '#core/record/read-line.ts';
import { writtenOf } from '#core/session/written.ts';
import { RecordLines } from '#tests/support/record-lines.ts';

it('says who wrote a line, when, and which it was', () => {
  const record = new RecordLines();
  record.add('remark', { text: 'calm', line: null }, 'witness');
  expect(writtenOf(readLine(record.lines[1]!, 'test').line)).toEqual({
    line: 1,
    wall: '2027-01-15T08:00:02.000Z',
    receiverS: 2,
    author: 'witness',
    role: 'witness',
  });
});
