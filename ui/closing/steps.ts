import { DAY_CHECKS } from '#core/record/entry-line.ts';
import type { SessionState } from '#core/session/session.ts';
import { entriesOf } from '#core/session/survey-state.ts';
import type { ClosingFound } from '#core/survey/closing.ts';
import { CHECK_WORDS } from '../survey/sheet-words.ts';
import type { Step } from '../survey/steps.ts';

/** What is taken again at the end: each step with what its comparison still lacks. */
export function closingSteps(session: SessionState, notTaken: readonly string[]): Step[] {
  const of = (fits: (where: string) => boolean) => notTaken.filter(fits);
  const checks = new Set(entriesOf(session.survey, 'check', 'closing').map(({ key }) => key));
  return [
    {
      id: 'freeboards',
      name: 'Freeboards',
      why: 'Two points a side tell whether she lies deeper than at the beginning: a leak looks like nothing else.',
      missing: of((where) => where.includes('freeboards')),
    },
    {
      id: 'water',
      name: 'Water',
      why: 'The tide brings other water; then she floats otherwise with the same mass.',
      missing: of((where) => where === 'water density'),
    },
    {
      id: 'tanks',
      name: 'Tanks',
      why: 'What flowed from one tank to another heels her slowly, in step with nothing.',
      missing: of((where) => where.startsWith('sounding')),
    },
    {
      id: 'people',
      name: 'People',
      why: 'Who stands elsewhere than at the beginning has moved their own moment.',
      missing: of((where) => where.startsWith('place')),
    },
    {
      id: 'zeros',
      name: 'Zeros',
      why: 'All weights back: the heel must be that of the beginning. Each sensor shown its own zero tells whose the rest is.',
      missing: of((where) => where === 'zero' || where.startsWith('zero of')),
    },
    {
      id: 'weights',
      name: 'Weights',
      why: 'Sandbags and drums take up rain; a weight that is heavier at the end was so in the middle.',
      missing: of((where) => where.startsWith('weighing')),
    },
    {
      id: 'checks',
      name: 'Berth',
      why: 'Lines and fenders as at the beginning, or the last readings are of another vessel.',
      missing: DAY_CHECKS.filter((check) => !checks.has(check)).map((check) =>
        CHECK_WORDS[check].toLowerCase(),
      ),
    },
  ];
}

/** What the comparison says was not taken again. */
export function notTakenOf(found: ClosingFound | null): string[] {
  return (found?.advice ?? [])
    .filter(({ code }) => code === 'closing-not-taken')
    .map(({ where }) => where);
}
