import { LIGHTSHIP_MATTERS } from '../survey/survey-input.ts';
import type { SessionState } from './session.ts';
import { shiftsBegun } from './shifts-begun.ts';
import { entriesOf } from './survey-state.ts';

/** What of the survey is still to be entered, at which step of the day, and why it matters. */
export interface Missing {
  readonly step: 'prepare' | 'survey' | 'closing';
  readonly what: string;
  readonly why: string;
}

/** IS Code 8.4.1.1. */
const FREEBOARDS_A_SIDE = 5;
const CLOSING_FREEBOARDS_A_SIDE = 2;

/** In the order of the day; empty: nothing is. */
export function surveyMissing(session: SessionState): Missing[] {
  return [...toPrepare(session), ...toSurvey(session), ...toClose(session)];
}

function toPrepare({ survey, test }: SessionState): Missing[] {
  const missing: Missing[] = [];
  const say = (what: string, why: string) => missing.push({ step: 'prepare', what, why });
  if (entriesOf(survey, 'hull').length === 0)
    say(
      'the hull',
      'without her lines displacement and KM stay as stated, and KG is of the fluid GM',
    );
  if (entriesOf(survey, 'vessel').length === 0)
    say('length and uncertainties', 'without the length no waterline is fitted');
  const settled = new Set(
    entriesOf(survey, 'matter')
      .filter(({ value }) => value.agreed !== 'open')
      .map(({ key }) => key),
  );
  const open = LIGHTSHIP_MATTERS.filter((matter) => !settled.has(matter)).length;
  if (open > 0)
    say(
      `agreement on ${open} of ${LIGHTSHIP_MATTERS.length} matters of the lightship`,
      'what belongs to the lightship decides its mass; agreed afterwards it is argued about',
    );
  if (entriesOf(survey, 'agreed').length === 0)
    say('who agreed what the lightship holds', 'until somebody did, the lightship is provisional');
  const again = new Set(entriesOf(survey, 'weight').map(({ key }) => key));
  const once = (test?.weights ?? []).filter(({ weight }) => !again.has(weight));
  if (once.length > 0)
    say(
      `a second person's mass of ${once.map(({ weight }) => weight).join(', ')}`,
      'one weight misread bends no line; two people seldom misread alike',
    );
  return missing;
}

function toSurvey({ survey }: SessionState): Missing[] {
  const missing: Missing[] = [];
  const say = (what: string, why: string) => missing.push({ step: 'survey', what, why });
  const marks = entriesOf(survey, 'mark').length;
  for (const side of ['port', 'starboard'] as const) {
    const count = entriesOf(survey, 'freeboard').filter(({ value }) => value.side === side).length;
    if (marks === 0 && count < FREEBOARDS_A_SIDE)
      say(
        `${FREEBOARDS_A_SIDE - count} freeboards to ${side}`,
        'IS Code 8.4.1.1 asks at least five a side, or all draught marks; fewer hide hog, sag and a misreading',
      );
  }
  if (entriesOf(survey, 'water').length === 0)
    say('the density of the water', 'one part in a thousand of it is one of her displacement');
  if (entriesOf(survey, 'space').length === 0)
    say(
      'spaces opened and seen',
      'free liquid that keeps its full width leaves the line straight; only looking excludes it',
    );
  if (entriesOf(survey, 'item').length === 0)
    say(
      'what is aboard and no part of her, and what is missing',
      'without it there is no lightship',
    );
  return missing;
}

function toClose({ survey, test, states }: SessionState): Missing[] {
  const missing: Missing[] = [];
  const say = (what: string, why: string) => missing.push({ step: 'closing', what, why });
  const why =
    'taken again after the last shift it tells a leak, rain or a transfer from a good day';
  // Before the last shift there is nothing to close.
  if (test === null || shiftsBegun(states) < test.plan.length) return missing;
  for (const side of ['port', 'starboard'] as const) {
    const again = entriesOf(survey, 'freeboard', 'closing').filter(
      ({ value }) => value.side === side,
    ).length;
    if (again < CLOSING_FREEBOARDS_A_SIDE)
      say(`${CLOSING_FREEBOARDS_A_SIDE - again} freeboards to ${side} again`, why);
  }
  if (entriesOf(survey, 'water', 'closing').length === 0) say('the density again', why);
  const sounded = entriesOf(survey, 'tank').filter(({ value }) => value.sounding !== undefined);
  const again = new Set(entriesOf(survey, 'tank', 'closing').map(({ key }) => key));
  for (const { key } of sounded) if (!again.has(key)) say(`the sounding of ${key} again`, why);
  return missing;
}
