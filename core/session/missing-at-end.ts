import { DAY_CHECKS } from '../record/entry-line.ts';
import { checksOpen } from './checks-open.ts';
import type { Missing } from './missing.ts';
import type { SessionState } from './session.ts';
import { entriesOf, type SurveyState } from './survey-state.ts';

const FREEBOARDS_AGAIN_A_SIDE = 2;
const WHY = 'taken again after the last shift it tells a leak, rain or a transfer from a good day';

/** What is still to be taken again at the end, whether the day is there yet or not. */
export function missingAtEnd(session: SessionState): Missing[] {
  const { survey, test } = session;
  const missing: Missing[] = [];
  const say = (part: string, what: string) =>
    missing.push({ step: 'closing', part, what, why: WHY });
  for (const side of ['port', 'starboard'] as const) {
    const again = entriesOf(survey, 'freeboard', 'closing').filter(
      ({ value }) => value.side === side,
    ).length;
    if (again < FREEBOARDS_AGAIN_A_SIDE)
      say('freeboards', `${FREEBOARDS_AGAIN_A_SIDE - again} freeboards to ${side} again`);
  }
  if (entriesOf(survey, 'water', 'closing').length === 0) say('water', 'the density again');
  const sounded = entriesOf(survey, 'tank').filter(({ value }) => value.sounding !== undefined);
  for (const key of notAgain(survey, 'tank', sounded)) say('tanks', `the sounding of ${key} again`);
  const people = entriesOf(survey, 'item').filter(({ value }) => value.kind === 'person');
  for (const key of notAgain(survey, 'item', people)) say('people', `where ${key} stands, again`);
  for (const key of notAgain(survey, 'zero', entriesOf(survey, 'zero')))
    say('zeros', `the own zero of ${key} again`);
  const weights = (test?.weights ?? []).map(({ weight }) => ({ key: weight }));
  const unweighed = notAgain(survey, 'weight', weights);
  if (unweighed.length > 0) say('weights', `the mass of ${unweighed.join(', ')} again`);
  const checks = checksOpen(session, 'closing');
  if (checks > 0) say('checks', `${checks} of ${DAY_CHECKS.length} checks of the berth again`);
  return missing;
}

function notAgain(
  survey: SurveyState,
  sheet: 'tank' | 'item' | 'zero' | 'weight',
  before: readonly { readonly key: string }[],
): string[] {
  const again = new Set(entriesOf(survey, sheet, 'closing').map(({ key }) => key));
  return before.flatMap(({ key }) => (again.has(key) ? [] : [key]));
}
