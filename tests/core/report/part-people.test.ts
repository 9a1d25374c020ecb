import { expect, it } from 'vitest';
import { receiptOf } from '#core/record/receipt.ts';
import { partPeople } from '#core/report/part-people.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';

const written = {
  line: 80,
  wall: '2026-05-04T15:00:00.000Z',
  receiverS: 1,
  author: 'M. Quill',
  role: 'witness',
};

it('prints what the witness asked with its answer, or that there is none', () => {
  const day = aDay();
  const asks = [
    {
      written,
      what: 'repeat' as const,
      text: 'again, please',
      line: 9,
      answers: [{ written, text: 'it is read again' }],
    },
    { written, what: 'objection' as const, text: 'the quay was touched', line: null, answers: [] },
  ];
  const texts = textsOf(partPeople(reportedDayOf({ ...day, people: { ...day.people, asks } })));
  expect(texts).toEqual(
    expect.arrayContaining([
      'again, please',
      'it is read again',
      'the quay was touched',
      'not answered',
    ]),
  );
});

it('gives the receipt of the whole record and both digests', () => {
  const day = reportedDayOf(aDay());
  const text = textsOf(partPeople(day)).join('\n');
  expect(text).toContain(`${day.head.lines} ${receiptOf(day.head).words.join(' ')}`);
  expect(text).toContain(day.head.head);
  expect(text).toContain(day.recordSha256);
});

it('lists signatures with seal and key, and receipts with their words', () => {
  const day = aDay();
  const people = {
    ...day.people,
    seals: [
      { written, digest: null, reason: 'done', signatures: [{ written, publicKey: 'the-key' }] },
    ],
    receipts: [{ written, lines: 12, head: 'ef'.repeat(32), publicKey: 'the-key' }],
  };
  const texts = textsOf(partPeople(reportedDayOf({ ...day, people })));
  expect(texts).toContain('the-key');
  expect(texts).toContain(receiptOf({ lines: 12, head: 'ef'.repeat(32) }).words.join(' '));
});
