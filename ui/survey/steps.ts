import type { Missing } from '#core/session/missing.ts';
import { missingAtEnd } from '#core/session/missing-at-end.ts';
import type { SessionState } from '#core/session/session.ts';
import { surveyMissing } from '#core/session/survey-missing.ts';
import { entriesOf } from '#core/session/survey-state.ts';
import { waterLineOf } from './water-line.ts';

/** A step of preparing or of the survey: what is missing of it, and why it matters. */
export interface Step {
  readonly id: string;
  readonly name: string;
  /** Why it matters, in a sentence. */
  readonly why: string;
  /** Empty: nothing. */
  readonly missing: readonly string[];
}
type Named = Omit<Step, 'missing'>;

const PREPARE: readonly Named[] = [
  {
    id: 'vessel',
    name: 'Vessel',
    why: 'Draughts, trim and the waterline are reckoned over her length; every later ± begins with how well things are read.',
  },
  {
    id: 'hull',
    name: 'Hull',
    why: 'Displacement and KM come from her lines. Without them both are guesses, and KG is as good as the guess.',
  },
  {
    id: 'lightship',
    name: 'Lightship',
    why: 'What counts as hers has to be agreed before the test; afterwards it is argued about with the result in hand.',
  },
  {
    id: 'weights',
    name: 'Weights',
    why: 'GM goes as every mass and distance. An error common to all of them leaves the plot straight, so two people read them, each by themselves.',
  },
  {
    id: 'plan',
    name: 'Plan',
    why: 'How far she will heel, when to stop, and how well KG will be known: before anybody moves a weight.',
  },
  {
    id: 'checks',
    name: 'Berth, crew',
    why: 'She must swing free and nothing may shift but the weights; a line that holds is read as stiffness.',
  },
];

const SURVEY: readonly Named[] = [
  {
    id: 'freeboards',
    name: 'Freeboards',
    why: 'They say how deep she lies, so her displacement and KM: a centimetre is a good part of a tonne of a small vessel.',
  },
  {
    id: 'water',
    name: 'Water',
    why: 'Displacement goes as the density, and a river over salt water has two.',
  },
  {
    id: 'tanks',
    name: 'Tanks',
    why: 'What is in them is not hers, and what moves in them makes her look more tender than she is.',
  },
  {
    id: 'spaces',
    name: 'Spaces',
    why: 'Water that keeps its width leaves the plot straight. Only looking excludes it: each space opened, seen and sounded.',
  },
  {
    id: 'aboard',
    name: 'Aboard',
    why: 'The lightship is what is left when all that is not hers is taken off and all that is missing is put on.',
  },
  {
    id: 'people',
    name: 'People',
    why: 'A person who walks over is a good part of a test weight; each has a station and stays there while the heel is read.',
  },
];

const CLOSING: readonly Named[] = [
  {
    id: 'freeboards',
    name: 'Freeboards',
    why: 'Two points a side tell whether she lies deeper than at the beginning: a leak looks like nothing else.',
  },
  {
    id: 'water',
    name: 'Water',
    why: 'The tide brings other water; then she floats otherwise with the same mass.',
  },
  {
    id: 'tanks',
    name: 'Tanks',
    why: 'What flowed from one tank to another heels her slowly, in step with nothing.',
  },
  {
    id: 'people',
    name: 'People',
    why: 'Who stands elsewhere than at the beginning has moved their own moment.',
  },
  {
    id: 'zeros',
    name: 'Zeros',
    why: 'All weights back: the heel must be that of the beginning. Each sensor shown its own zero tells whose the rest is.',
  },
  {
    id: 'weights',
    name: 'Weights',
    why: 'Sandbags and drums take up rain; a weight that is heavier at the end was so in the middle.',
  },
  {
    id: 'checks',
    name: 'Berth',
    why: 'Lines and fenders as at the beginning, or the last readings are of another vessel.',
  },
];

export function prepareSteps(session: SessionState): Step[] {
  const planned = (session.test?.plan.length ?? 0) > 0;
  return steps(PREPARE, 'prepare', surveyMissing(session), {
    plan: planned ? [] : ['a test with its shifts'],
  });
}

export function surveySteps(session: SessionState): Step[] {
  return steps(SURVEY, 'survey', surveyMissing(session), {
    freeboards: offTheWaterline(session),
    water: entriesOf(session.survey, 'water')
      .filter(({ value }) => value.temperatureC === null)
      .map(({ key }) => `the temperature of the sample ${key}`),
    aboard: unseen(session),
  });
}

export function closingSteps(session: SessionState): Step[] {
  return steps(CLOSING, 'closing', missingAtEnd(session), {});
}

function steps(
  named: readonly Named[],
  step: Missing['step'],
  missing: readonly Missing[],
  also: Readonly<Record<string, readonly string[]>>,
): Step[] {
  return named.map((one) => ({
    ...one,
    missing: [
      ...missing.filter((each) => each.step === step && each.part === one.id).map(whatOf),
      ...(also[one.id] ?? []),
    ],
  }));
}
const whatOf = ({ what }: Missing) => what;

function offTheWaterline({ survey }: SessionState): string[] {
  return waterLineOf(survey)
    .advice.filter(({ code }) => code === 'level-off-plane')
    .map(({ where }) => `${where}, read again: it lies off the waterline`);
}

function unseen({ survey }: SessionState): string[] {
  const seen = new Set(
    survey.photographs.flatMap(({ of }) => (of?.sheet === 'item' ? [of.key] : [])),
  );
  return entriesOf(survey, 'item')
    .filter(
      ({ key, value }) => value.kind !== 'person' && value.kind !== 'liquid' && !seen.has(key),
    )
    .map(({ key }) => `a photograph of ${key}`);
}
