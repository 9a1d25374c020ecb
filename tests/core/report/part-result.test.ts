import { expect, it } from 'vitest';
import { CANNOT_SHOW } from '#core/reduction/cannot-show.ts';
import { partResult } from '#core/report/part-result.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';

it('prints every shape, everything no plot can show, and every cause of the budget', () => {
  const day = reportedDayOf(aDay({ stateDeg: 0.004, readingDeg: 0.002 }));
  const texts = textsOf(partResult(day));
  for (const shape of day.result.diagnosis!.shapes)
    expect(texts).toContain(shape.shape.replaceAll('-', ' '));
  expect(texts.filter((text) => text === 'none')).not.toHaveLength(0);
  expect(
    Object.values(CANNOT_SHOW).every((what) =>
      texts.some((text) => text.toLowerCase().startsWith(what.toLowerCase())),
    ),
  ).toBe(true);
  for (const { cause } of day.result.classical!.budget)
    expect(texts.some((text) => text.toLowerCase() === cause.toLowerCase())).toBe(true);
});

it('has no plot where there is no line', () => {
  expect(textsOf(partResult(reportedDayOf(aDay({ states: 1 }))))).toContain('There is no line.');
});
