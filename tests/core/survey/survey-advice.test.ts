import { expect, test } from 'vitest';
import { gmOverKgAdvice, openMatters, surveyAdvice } from '#core/survey/survey-advice.ts';
import { LIGHTSHIP_MATTERS, type SurveyItem } from '#core/survey/survey-input.ts';

const sheet = {
  matters: LIGHTSHIP_MATTERS.map((matter) => ({ matter, agreed: 'in' as const })),
  agreedBy: ['architect', 'owner'],
};
const item = (photographLine: number | null): SurveyItem => ({
  item: 'winch',
  kind: 'add',
  massT: 2,
  massUncertaintyT: 0,
  at: { xM: 1, yM: 0, zM: 2 },
  placeUncertaintyM: 0,
  photographLine,
});

test('two per cent to add and four to deduct go by in silence, more is said with its share', () => {
  const said = (addedT: number, deductedT: number) =>
    surveyAdvice({ sheet, items: [item(3)] }, 60, addedT, deductedT).map((one) => one.code);
  expect(said(1.2, 2.4)).toEqual([]);
  expect(said(1.3, 2.5)).toEqual(['items-to-add-many', 'items-to-deduct-many']);
});

test('an item without a photograph is counted', () => {
  const advice = surveyAdvice({ sheet, items: [item(3), item(null)] }, 60, 0, 0);
  expect(advice).toMatchObject([{ code: 'items-without-photograph', found: 1, limit: 2 }]);
});

test('a sheet nobody signed agrees on nothing; one matter left open is that one', () => {
  expect(openMatters({ items: [] })).toEqual([...LIGHTSHIP_MATTERS]);
  expect(openMatters({ sheet: { ...sheet, agreedBy: [] }, items: [] })).toHaveLength(8);
  const [first, ...rest] = sheet.matters;
  const open = { ...sheet, matters: [{ ...first!, agreed: 'open' as const }, ...rest] };
  expect(openMatters({ sheet: open, items: [] })).toEqual([first!.matter]);
});

test('GM over three KG is warned of', () => {
  expect(gmOverKgAdvice(5.9, 2)).toEqual([]);
  expect(gmOverKgAdvice(6.1, 2)).toMatchObject([{ code: 'gm-over-three-kg', limit: 6 }]);
});
