import { DAY_CHECKS } from '#core/record/entry-line.ts';
import type { SessionState } from '#core/session/session.ts';
import { entriesOf } from '#core/session/survey-state.ts';
import { LIGHTSHIP_MATTERS } from '#core/survey/survey-input.ts';
import { secondLooks } from './second-look.ts';
import { CHECK_WORDS, MATTER_WORDS } from './sheet-words.ts';
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

/** IS Code 8.4.1.1: freeboards on each side, unless all draught marks are read on both. */
export const FREEBOARDS_A_SIDE = 5;

export function prepareSteps(session: SessionState): Step[] {
  const { survey } = session;
  const some = (there: boolean, missing: string) => (there ? [] : [missing]);
  return [
    {
      id: 'vessel',
      name: 'Vessel',
      why: 'Draughts, trim and the waterline are reckoned over her length; every later ± begins with how well things are read.',
      missing: some(
        entriesOf(survey, 'vessel').length > 0,
        'her length, and how well things are read',
      ),
    },
    {
      id: 'hull',
      name: 'Hull',
      why: 'Displacement and KM come from her lines. Without them both are guesses, and KG is as good as the guess.',
      missing: some(entriesOf(survey, 'hull').length > 0, 'her lines, or her hydrostatics'),
    },
    {
      id: 'lightship',
      name: 'Lightship',
      why: 'What counts as hers has to be agreed before the test; afterwards it is argued about with the result in hand.',
      missing: lightshipMissing(session),
    },
    {
      id: 'weights',
      name: 'Weights',
      why: 'GM goes as every mass and distance. An error common to all of them leaves the plot straight, so two people read them, each by themselves.',
      missing: secondLooks(session).flatMap((look) =>
        look.second === null ? [`${look.words}, read by a second person`] : [],
      ),
    },
    {
      id: 'plan',
      name: 'Plan',
      why: 'How far she will heel, when to stop, and how well KG will be known: before anybody moves a weight.',
      missing: some(
        session.test !== null && session.test.plan.length > 0,
        'a test with its shifts',
      ),
    },
    {
      id: 'checks',
      name: 'Berth and crew',
      why: 'She must swing free and nothing may shift but the weights; a line that holds is read as stiffness.',
      missing: checksMissing(session),
    },
  ];
}

function lightshipMissing({ survey }: SessionState): string[] {
  const settled = new Map(entriesOf(survey, 'matter').map(({ key, value }) => [key, value.agreed]));
  const open = LIGHTSHIP_MATTERS.filter((matter) => (settled.get(matter) ?? 'open') === 'open');
  return [
    ...open.map((matter) => MATTER_WORDS[matter].toLowerCase()),
    ...(entriesOf(survey, 'agreed').length === 0 ? ['who agreed'] : []),
  ];
}

function checksMissing({ survey }: SessionState, occasion: 'before' | 'closing' = 'before') {
  const checks = new Map(
    entriesOf(survey, 'check', occasion).map(({ key, value }) => [key, value.holds]),
  );
  return DAY_CHECKS.flatMap((check) =>
    checks.get(check) === true
      ? []
      : [`${CHECK_WORDS[check].toLowerCase()}${checks.has(check) ? ': does not hold' : ''}`],
  );
}

export function surveySteps(session: SessionState): Step[] {
  const { survey } = session;
  const items = entriesOf(survey, 'item');
  const things = items.filter(({ value }) => value.kind !== 'person');
  const people = items.filter(({ value }) => value.kind === 'person');
  const seen = new Set(
    survey.photographs.flatMap(({ of }) => (of?.sheet === 'item' ? [of.key] : [])),
  );
  const unseen = things.filter(({ key, value }) => value.kind !== 'liquid' && !seen.has(key));
  return [
    {
      id: 'freeboards',
      name: 'Freeboards',
      why: 'They say how deep she lies, so her displacement and KM: 1 cm is most of a tonne of a small vessel.',
      missing: freeboardsMissing(session),
    },
    {
      id: 'water',
      name: 'Water',
      why: 'Displacement goes as the density, and a river over salt water has two.',
      missing: waterMissing(session),
    },
    {
      id: 'tanks',
      name: 'Tanks',
      why: 'What is in them is not hers, and what moves in them makes her look more tender than she is.',
      missing:
        entriesOf(survey, 'tank').length === 0 ? ['every tank with anything in it, sounded'] : [],
    },
    {
      id: 'spaces',
      name: 'Spaces',
      why: 'Water that keeps its width leaves the plot straight. Only looking excludes it: each space opened, seen and sounded.',
      missing: spacesMissing(session),
    },
    {
      id: 'aboard',
      name: 'Aboard',
      why: 'The lightship is what is left when all that is not hers is taken off and all that is missing is put on.',
      missing: [
        ...(things.length === 0 ? ['what is to be taken off, put on, moved, still fitted'] : []),
        ...unseen.map(({ key }) => `a photograph of ${key}`),
      ],
    },
    {
      id: 'people',
      name: 'People',
      why: 'A person who walks over is a tenth of a test weight; each has a station and stays there while the heel is read.',
      missing: people.length === 0 ? ['who is aboard, and where they stand'] : [],
    },
  ];
}

function freeboardsMissing({ survey }: SessionState): string[] {
  const marks = entriesOf(survey, 'mark');
  const short = (['port', 'starboard'] as const).flatMap((side) => {
    const read = entriesOf(survey, 'freeboard').filter((one) => one.value.side === side).length;
    const lacking = FREEBOARDS_A_SIDE - read;
    return lacking > 0 ? [`${lacking} more to ${side}`] : [];
  });
  const off = waterLineOf(survey).advice.filter(({ code }) => code === 'level-off-plane');
  const again = off.map(({ where }) => `${where}, read again: it lies off the waterline`);
  // Whether marks alone serve (forward, amidships, aft, both sides) the waterline itself says.
  return [...(marks.length >= 6 ? [] : short), ...again];
}

function waterMissing({ survey }: SessionState): string[] {
  const samples = entriesOf(survey, 'water');
  if (samples.length === 0) return ['a sample; from depth, and at more than one place'];
  return samples
    .filter(({ value }) => value.temperatureC === null)
    .map(({ key }) => `temperature of the sample ${key}`);
}

function spacesMissing({ survey }: SessionState): string[] {
  const spaces = entriesOf(survey, 'space');
  if (spaces.length === 0) return ['every tank, bilge and void: opened, seen, sounded, by whom'];
  return spaces.flatMap(({ key, value }) => {
    const lacking = [
      ...(value.sounded ? [] : ['not sounded']),
      ...(value.opened ? [] : ['not opened']),
      ...(value.by === undefined ? ['nobody named'] : []),
    ];
    return lacking.length === 0 ? [] : [`${key}: ${lacking.join(', ')}`];
  });
}
