import type { Advice } from '../quantity/advice.ts';
import { LIGHTSHIP_MATTERS, type SurveyInput } from './survey-input.ts';

/** US Coast Guard guideline, by a summary of it: at least 98 % complete. */
const MOST_ADDED_SHARE = 0.02;
/** IS Code annex 1 4.1 (from memory). */
const MOST_DEDUCTED_SHARE = 0.04;

/** Matters of the sheet nobody has agreed on; all of them where there is no sheet. */
export function openMatters({ sheet }: SurveyInput): string[] {
  const settled = new Set(
    (sheet?.agreedBy.length ?? 0) === 0
      ? []
      : sheet!.matters.filter((one) => one.agreed !== 'open').map((one) => one.matter),
  );
  return LIGHTSHIP_MATTERS.filter((matter) => !settled.has(matter));
}

/** What is to be thought over of a survey: shares of the lightship's mass, the sheet, photographs. */
export function surveyAdvice(
  survey: SurveyInput,
  massT: number,
  addedT: number,
  deductedT: number,
): Advice[] {
  const advice: Advice[] = [];
  const over = (
    code: 'items-to-add-many' | 'items-to-deduct-many',
    tonnes: number,
    share: number,
  ) => {
    if (tonnes > share * massT) {
      advice.push({ code, where: 'survey', found: tonnes, limit: share * massT, unit: 't' });
    }
  };
  over('items-to-add-many', addedT, MOST_ADDED_SHARE);
  over('items-to-deduct-many', deductedT, MOST_DEDUCTED_SHARE);
  const open = openMatters(survey);
  if (open.length > 0) {
    const where = open.join(', ');
    advice.push({ code: 'lightship-not-agreed', where, found: null, limit: null, unit: '' });
  }
  // what is in a tank is seen by its sounding
  const toSee = survey.items.filter((one) => one.kind !== 'liquid');
  const unseen = toSee.filter((one) => one.photographLine === null).length;
  if (unseen > 0) {
    const limit = toSee.length;
    advice.push({
      code: 'items-without-photograph',
      where: 'survey',
      found: unseen,
      limit,
      unit: '',
    });
  }
  return advice;
}

/** GM so far over KG that a small error of GM is a large one of KG (HSC Code 2.7.2). */
const GM_OVER_KG = 3;

export function gmOverKgAdvice(gmM: number, kgM: number): Advice[] {
  if (gmM <= GM_OVER_KG * kgM) return [];
  const limit = GM_OVER_KG * kgM;
  return [{ code: 'gm-over-three-kg', where: 'GM beside KG', found: gmM, limit, unit: 'm' }];
}
