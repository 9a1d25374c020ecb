import { expect, it } from 'vitest';
import { partFloat } from '#core/report/part-float.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';
import { aSurveyedDay } from '#tests/support/surveyed-day.ts';

it('prints freeboards with what the waterline leaves over, marks, water, tanks and spaces', () => {
  const day = reportedDayOf(aSurveyedDay({ readingDeg: 0.002 }));
  const blocks = partFloat(day);
  const texts = textsOf(blocks);
  expect(blocks.some(({ kind }) => kind === 'figure')).toBe(true);
  expect(texts).toEqual(
    expect.arrayContaining([
      'port 1',
      '0.800',
      '0.802',
      'aft',
      '1.910',
      '1023.5',
      'Fuel port',
      '0.410',
      'engine bilge',
    ]),
  );
  // 2 m x 1 m x 0.41 m of fuel oil.
  expect(texts).toContain('0.82');
  expect(texts).toContain('0.6888');
});

it('says of each of them that there is none', () => {
  const texts = textsOf(partFloat(reportedDayOf(aDay())));
  expect(texts).toEqual(
    expect.arrayContaining([
      'No freeboard was entered.',
      'No draught mark was read.',
      'No sample of the water was taken.',
      'No tank was entered.',
      'No space was entered: free liquid is not excluded.',
    ]),
  );
});
