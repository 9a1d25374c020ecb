import { RUNS_ASKED } from '#core/reduction/roll-period.ts';
import type { SessionState } from '#core/session/session.ts';
import type { LivePicture } from '#core/wire/screen-message.ts';
import { runsThatCount } from '../roll/runs.ts';
import { readingsPlanned, readingsTaken } from '../shifts/day.ts';
import { prepareSteps, type Step, surveySteps } from '../survey/steps.ts';
import { clockTime, UNKNOWN } from './figure.ts';

export type PageName =
  | 'prepare'
  | 'sensors'
  | 'survey'
  | 'shifts'
  | 'hand'
  | 'closing'
  | 'roll'
  | 'result'
  | 'loading'
  | 'record';

/** One stop of the day: its page, its name, and what stands under the name. */
export interface Stop {
  readonly page: PageName;
  readonly name: string;
  readonly under: string;
  readonly done: boolean;
}

export const PAGES: readonly PageName[] = [
  'prepare',
  'sensors',
  'survey',
  'shifts',
  'hand',
  'closing',
  'roll',
  'result',
  'loading',
  'record',
];

/** The stops of the day in the order they are come to. */
export function stopsOf(session: SessionState | null, live: LivePicture | null): Stop[] {
  const taken = session === null ? 0 : readingsTaken(session);
  const planned = session === null ? 0 : readingsPlanned(session);
  const inUse = live?.instruments.filter((instrument) => instrument.refused === null).length ?? 0;
  const all = live?.instruments.length ?? 0;
  const byHand = session?.states.reduce((sum, state) => sum + state.handReadings.length, 0) ?? 0;
  const rolled = session === null ? 0 : runsThatCount(session);
  const takenAgain =
    session?.survey.entries.filter(({ occasion }) => occasion === 'closing').length ?? 0;
  const first = session?.states[0]?.readingWritten ?? null;
  return [
    stopOfSteps('prepare', 'Prepare', session === null ? [] : prepareSteps(session)),
    {
      page: 'sensors',
      name: 'Sensors',
      under: all === 0 ? UNKNOWN : `${inUse} of ${all} used`,
      done: taken > 0,
    },
    stopOfSteps('survey', 'Survey', session === null ? [] : surveySteps(session)),
    {
      page: 'shifts',
      name: 'Shifts',
      under: shiftsUnder(session, taken, planned),
      done: first !== null && taken >= planned,
    },
    {
      page: 'hand',
      name: 'By hand',
      under: byHand === 0 ? UNKNOWN : `${byHand} read`,
      done: byHand > 0 && taken >= planned,
    },
    {
      page: 'closing',
      name: 'Closing',
      under: takenAgain === 0 ? UNKNOWN : `${takenAgain} taken again`,
      done: takenAgain > 0 && taken >= planned,
    },
    {
      page: 'roll',
      name: 'Roll',
      under: rolled === 0 ? UNKNOWN : `${rolled} of ${RUNS_ASKED} runs`,
      done: rolled >= RUNS_ASKED,
    },
    {
      page: 'result',
      name: 'Result',
      under: resultUnder(taken, planned),
      done: planned > 0 && taken >= planned,
    },
    { page: 'loading', name: 'Loading', under: 'at any time', done: false },
    {
      page: 'record',
      name: 'Record',
      under: session?.closed
        ? `closed ${clockTime(session.closed.written.wall, false)}`
        : `${session?.lines ?? 0} lines`,
      done: session?.closed !== null && session !== null,
    },
  ];
}

/** A page of steps says how many still lack something. */
function stopOfSteps(page: PageName, name: string, steps: readonly Step[]): Stop {
  const lacking = steps.filter(({ missing }) => missing.length > 0).length;
  const done = steps.length > 0 && lacking === 0;
  return { page, name, under: done ? 'complete' : `${lacking} missing`, done };
}

function shiftsUnder(session: SessionState | null, taken: number, planned: number): string {
  if (session === null || planned === 0) return UNKNOWN;
  if (taken >= planned) return `${taken} readings`;
  const present = session.states.at(-1)?.state ?? 0;
  if (session.awaits === 'landing') return `shift ${present} of ${planned - 1}`;
  return `reading ${present} of ${planned - 1}`;
}

function resultUnder(taken: number, planned: number): string {
  if (planned === 0 || taken < 3) return UNKNOWN;
  return taken >= planned ? 'ready' : `from ${taken} so far`;
}
