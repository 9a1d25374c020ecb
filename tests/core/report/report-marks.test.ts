import { expect, it } from 'vitest';
import { reportMarks } from '#core/report/report-marks.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf } from '#tests/support/reported-day.ts';

const written = {
  line: 90,
  wall: '2026-05-04T15:00:00.000Z',
  receiverS: 1,
  author: 'M. Quill',
  role: 'witness',
};

it('marks a simulated, open, unsigned day as that', () => {
  expect(reportMarks(reportedDayOf(aDay()))).toEqual([
    'Rehearsal: simulated vessel, no real reading',
    'Draft: the test is not closed',
    'Unsigned',
  ]);
});

it('takes each mark away only by what settles it', () => {
  const day = aDay();
  const closed = {
    ...day,
    test: { ...day.test!, mode: 'test' as const },
    closed: { written, reason: 'done' },
  };
  expect(reportMarks(reportedDayOf(closed))).toEqual(['Unsigned']);
  const ask = { written, what: 'objection' as const, text: 'the zero', line: null, answers: [] };
  const asked = { ...closed, people: { ...closed.people, asks: [ask] } };
  expect(reportMarks(reportedDayOf(asked))[0]).toMatch(/^Provisional: what the witness asked/);
  const seal = (role: string) => ({
    ...closed,
    people: {
      ...closed.people,
      seals: [
        {
          written,
          digest: null,
          reason: 'done',
          signatures: [{ written: { ...written, role }, publicKey: 'k' }],
        },
      ],
    },
  });
  expect(reportMarks(reportedDayOf(seal('witness')))).toEqual(['Unsigned']);
  expect(reportMarks(reportedDayOf(seal('architect')))).toEqual([]);
});

it('calls a day without a result, or with trouble in its plot, provisional', () => {
  expect(reportMarks(reportedDayOf(aDay({ states: 2 })))).toContain('Provisional: no result yet');
  const bent = aDay({ stateDeg: 0.001, scale: { fore: 1.2 } });
  expect(reportMarks(reportedDayOf(bent))).toContain('Provisional: trouble is seen in the plot');
});
