import { expect, it } from 'vitest';
import { partDeviations, partLightship, partWorth } from '#core/report/part-lightship.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { reportedDayOf, textsOf } from '#tests/support/reported-day.ts';
import { aSurveyedDay } from '#tests/support/surveyed-day.ts';

const surveyed = reportedDayOf(aSurveyedDay({ readingDeg: 0.002, stateDeg: 0.003 }));

it('prints every item, what was agreed, and a lightship that is provisional while things are to be fitted', () => {
  const blocks = partLightship(surveyed);
  const texts = textsOf(blocks);
  expect(texts).toEqual(
    expect.arrayContaining([
      'Rope on deck',
      'deduct',
      'wet',
      'Winch',
      'to be fitted',
      'permanent ballast',
      'belongs to her',
      'A. Rowan, architect',
    ]),
  );
  expect(blocks.some(({ kind }) => kind === 'notice')).toBe(true);
  expect(texts).toContain('VCG (KG), over the baseline');
});

it('keeps three hundred items in one table', () => {
  const item = surveyed.session.survey.entries.find(({ sheet }) => sheet === 'item')!;
  const entries = Array.from({ length: 300 }, (_, k) => ({ ...item, key: `Item ${k}` }));
  const day = {
    ...surveyed,
    session: { ...surveyed.session, survey: { entries, photographs: [] } },
  };
  const table = partLightship(day).find(
    (block) => block.kind === 'table' && block.columns[0]?.head === 'Item',
  );
  expect(table?.kind === 'table' && table.rows).toHaveLength(300);
});

it('says that there is none, and of what', () => {
  const texts = textsOf(partLightship(reportedDayOf(aDay())));
  expect(texts).toContain('No item was entered.');
  expect(texts.some((text) => text.startsWith('The record gives no lightship'))).toBe(true);
});

it('prints pictures with what they are of', () => {
  const day = { ...surveyed, photographs: [{ line: 9, caption: 'rope', jpeg: '/9j/' }] };
  expect(textsOf(partLightship(day))).toContain('rope (line 9)');
});

it('prints deviations with their clause, and what nobody stated', () => {
  const texts = textsOf(partDeviations(surveyed));
  expect(texts.some((text) => text.startsWith('Not met: three pendulums'))).toBe(true);
  for (const { means, clause } of surveyed.reduction.reduction!.advice) {
    expect(texts).toContain(means);
    expect(texts).toContain(clause);
  }
});

it('says what to measure again and what it buys, or nothing without a reduction', () => {
  expect(textsOf(partWorth(surveyed))).toContain('Largest cause');
  expect(partWorth(reportedDayOf(aDay({ states: 1 })))).toEqual([]);
});
