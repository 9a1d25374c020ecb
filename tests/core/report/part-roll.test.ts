import { expect, it } from 'vitest';
import { ROLL_COEFFICIENTS } from '#core/reduction/roll-coefficient.ts';
import { partRoll } from '#core/report/part-roll.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';
import { ROLL_RUN } from '#tests/support/roll-run-body.ts';

const written = {
  line: 70,
  wall: '2026-05-04T15:00:00.000Z',
  receiverS: 1,
  author: 'A. Rowan',
  role: 'architect',
};

it('prints every run, GM by every row of the table, and the ring-downs', () => {
  const day = {
    ...aDay(),
    rollRuns: [
      { written, rolled: ROLL_RUN, refused: null },
      {
        written: { ...written, line: 71 },
        rolled: ROLL_RUN,
        refused: { written, reason: 'people ran' },
      },
    ],
  };
  const texts = textsOf(partRoll(reportedDayOf(day)));
  for (const { condition } of ROLL_COEFFICIENTS) expect(texts).toContain(condition);
  expect(texts).toContain('people ran');
  expect(texts).toContain('Roll after each shift, as evidence beside the plot');
});

it('says that there is none', () => {
  expect(textsOf(partRoll(reportedDayOf(aDay())))).toContain('No run of free roll stands.');
});
