import { DAY_CHECKS } from '../record/entry-line.ts';
import { LIGHTSHIP_MATTERS } from '../survey/survey-input.ts';
import { checksOpen } from './checks-open.ts';
import type { Missing } from './missing.ts';
import { missingAtEnd } from './missing-at-end.ts';
import { distanceKey, plannedDistances } from './planned-distances.ts';
import type { SessionState } from './session.ts';
import { shiftsBegun } from './shifts-begun.ts';
import { entriesOf } from './survey-state.ts';

/** IS Code 8.4.1.1. */
export const FREEBOARDS_A_SIDE = 5;

/** In the order of the day; empty: nothing is. Before the last shift there is nothing to close. */
export function surveyMissing(session: SessionState): Missing[] {
  const { test } = session;
  const over = test !== null && shiftsBegun(session.states).length >= test.plan.length;
  return [...toPrepare(session), ...toSurvey(session), ...(over ? missingAtEnd(session) : [])];
}

function toPrepare(session: SessionState): Missing[] {
  const { survey } = session;
  const missing: Missing[] = [];
  const say = (part: string, what: string, why: string) =>
    missing.push({ step: 'prepare', part, what, why });
  if (entriesOf(survey, 'vessel').length === 0)
    say('vessel', 'length and uncertainties', 'without the length no waterline is fitted');
  if (entriesOf(survey, 'hull').length === 0)
    say(
      'hull',
      'the hull',
      'without her lines displacement and KM stay as stated, and KG is of the fluid GM',
    );
  const settled = new Set(
    entriesOf(survey, 'matter')
      .filter(({ value }) => value.agreed !== 'open')
      .map(({ key }) => key),
  );
  const open = LIGHTSHIP_MATTERS.filter((matter) => !settled.has(matter)).length;
  if (open > 0)
    say(
      'lightship',
      `agreement on ${open} of ${LIGHTSHIP_MATTERS.length} matters of the lightship`,
      'what belongs to the lightship decides its mass; agreed afterwards it is argued about',
    );
  if (entriesOf(survey, 'agreed').length === 0)
    say(
      'lightship',
      'who agreed what the lightship holds',
      'until somebody did, the lightship is provisional',
    );
  for (const what of readOnce(session))
    say('weights', what, 'one misread bends no line; two people seldom misread alike');
  const checks = checksOpen(session, 'before');
  if (checks > 0)
    say(
      'checks',
      `${checks} of ${DAY_CHECKS.length} checks of berth and crew`,
      'a line that holds her is read as stiffness, and what shifts as heel',
    );
  return missing;
}

function readOnce(session: SessionState): string[] {
  const { survey, test } = session;
  const weighed = new Set(entriesOf(survey, 'weight').map(({ key }) => key));
  const masses = (test?.weights ?? []).filter(({ weight }) => !weighed.has(weight));
  const taped = new Set(entriesOf(survey, 'distance').map(({ key }) => key));
  const distances = plannedDistances(session).filter((move) => !taped.has(distanceKey(move)));
  return [
    ...(masses.length === 0
      ? []
      : [`a second person's mass of ${masses.map(({ weight }) => weight).join(', ')}`]),
    ...(distances.length === 0
      ? []
      : [`a second person's distance of shift ${distances.map(({ state }) => state).join(', ')}`]),
  ];
}

function toSurvey({ survey }: SessionState): Missing[] {
  const missing: Missing[] = [];
  const say = (part: string, what: string, why: string) =>
    missing.push({ step: 'survey', part, what, why });
  const marks = entriesOf(survey, 'mark').length;
  for (const side of ['port', 'starboard'] as const) {
    const count = entriesOf(survey, 'freeboard').filter(({ value }) => value.side === side).length;
    if (marks === 0 && count < FREEBOARDS_A_SIDE)
      say(
        'freeboards',
        `${FREEBOARDS_A_SIDE - count} freeboards to ${side}`,
        'IS Code 8.4.1.1 asks at least five a side, or all draught marks; fewer hide hog, sag and a misreading',
      );
  }
  if (entriesOf(survey, 'water').length === 0)
    say(
      'water',
      'the density of the water',
      'one part in a thousand of it is one of her displacement',
    );
  if (entriesOf(survey, 'tank').length === 0)
    say(
      'tanks',
      'what is in her tanks',
      'it is not hers, and what moves in them makes her look more tender',
    );
  const looking =
    'free liquid that keeps its full width leaves the line straight; only looking excludes it';
  const spaces = entriesOf(survey, 'space');
  if (spaces.length === 0) say('spaces', 'spaces opened and seen', looking);
  for (const { key, value } of spaces) {
    const lacking = [
      ...(value.sounded ? [] : ['sounded']),
      ...(value.opened ? [] : ['opened and seen']),
      ...(value.by === undefined ? ['with who looked'] : []),
    ];
    if (lacking.length > 0) say('spaces', `${key} ${lacking.join(', ')}`, looking);
  }
  const items = entriesOf(survey, 'item');
  if (items.every(({ value }) => value.kind === 'person'))
    say(
      'aboard',
      'what is aboard and no part of her, and what is missing',
      'without it there is no lightship',
    );
  if (items.every(({ value }) => value.kind !== 'person'))
    say(
      'people',
      'who is aboard, and where they stand',
      'a person who walks over is a good part of a test weight',
    );
  return missing;
}
