import { createRandom } from '#core/numerics/random.ts';
import type { Move, Place, TestOpened } from '#core/record/line.ts';
import type { Reading } from '#core/record/reading-line.ts';
import type { Certificate, Mounting } from '#core/sample/certificate.ts';
import { EMPTY_PEOPLE } from '#core/session/fold-people.ts';
import type { SessionState, ShiftState, Written } from '#core/session/session.ts';
import { EMPTY_SURVEY } from '#core/session/survey-state.ts';

const written = (line: number): Written => ({
  line,
  wall: '2026-05-04T09:00:00.000Z',
  receiverS: line,
  author: 'A. Rowan',
  role: 'architect',
});

const place = (yM: number): Place => ({ xM: 8, yM, zM: 2.4 });
const WEIGHTS = ['A', 'B', 'C', 'D'];
/** A, B stand to port, C, D to starboard; each shift carries one across and back. */
const HOME: Record<string, number> = { A: -1.8, B: -1.8, C: 1.8, D: 1.8 };
const ORDER = ['A', 'B', 'B', 'A', 'C', 'D', 'D', 'C'];

export const DAY_GM = 0.9;
export const DAY_DISPLACEMENT = 60;

export interface DayWishes {
  readonly states?: number;
  /** Standard deviation of a state and of a reading, degrees. */
  readonly stateDeg?: number;
  readonly readingDeg?: number;
  readonly seed?: number;
  /** Added to one instrument's every reading, degrees. */
  readonly offsetDeg?: Partial<Record<string, number>>;
  /** Factor on one instrument's tangents. */
  readonly scale?: Partial<Record<string, number>>;
  readonly metacentreMovementM?: number | null;
}

export const SENSORS = ['fore', 'aft', 'tube'];

/** A whole day as a fold over its lines would leave it, made from the exact line plus chance. */
export function aDay(wishes: DayWishes = {}): SessionState {
  const random = createRandom(wishes.seed ?? 1, 'a-day');
  const weightsAt: Record<string, Place> = {};
  for (const weight of WEIGHTS) weightsAt[weight] = place(HOME[weight]!);
  const states: ShiftState[] = [];
  for (let state = 0; state <= ORDER.length && state < (wishes.states ?? 9); state++) {
    const moves = state === 0 ? [] : [moveAcross(weightsAt, ORDER[state - 1]!)];
    const heelingMomentTM = WEIGHTS.reduce(
      (sum, weight) => sum + 0.5 * (weightsAt[weight]!.yM - HOME[weight]!),
      0,
    );
    const shared = random.normal(wishes.stateDeg ?? 0);
    const reading = readingOf(state, heelingMomentTM, (instrument) => {
      const tangent = 0.002 + heelingMomentTM / (DAY_DISPLACEMENT * DAY_GM);
      const heelDeg = (Math.atan(tangent * (wishes.scale?.[instrument] ?? 1)) * 180) / Math.PI;
      const own = random.normal(wishes.readingDeg ?? 0);
      return heelDeg + shared + own + (wishes.offsetDeg?.[instrument] ?? 0);
    });
    states.push({ ...unread(state), moves, heelingMomentTM, ...accepted(reading, 10 * state) });
  }
  return session(states, weightsAt, wishes);
}

function moveAcross(weightsAt: Record<string, Place>, weight: string): Move {
  const from = weightsAt[weight]!;
  const to = place(-from.yM);
  weightsAt[weight] = to;
  return { weight, from, to };
}

function unread(state: number): ShiftState {
  return {
    state,
    moves: [],
    heelingMomentTM: 0,
    asWritten: null,
    predictedHeelDeg: null,
    predictedStandardErrorDeg: null,
    predictedDegreesOfFreedom: null,
    begun: null,
    landedS: null,
    landed: null,
    reading: null,
    readingWritten: null,
    voided: [],
    putBack: [],
    handReadings: [],
  };
}

function accepted(reading: Reading, line: number) {
  return { reading, readingWritten: written(line) };
}

function readingOf(
  state: number,
  _momentTM: number,
  heelOf: (instrument: string) => number,
): Reading {
  const instruments = SENSORS.map((instrument) => ({
    instrument,
    label: instrument,
    certificate: `C-${instrument}`,
    sampleRateHz: 50,
    heelDeg: heelOf(instrument),
    standardErrorDeg: 0.006,
    degreesOfFreedom: 12,
  }));
  const heelDeg = instruments.reduce((sum, one) => sum + one.heelDeg, 0) / instruments.length;
  return {
    state,
    estimator: 'test',
    fromS: 100 * state,
    toS: 100 * state + 60,
    countedS: 60,
    joined: { heelDeg, standardErrorDeg: 0.005, degreesOfFreedom: 12 },
    instruments,
    rollPeriodS: 5,
    dampingRatio: 0.05,
  };
}

function session(
  states: readonly ShiftState[],
  weightsAt: Record<string, Place>,
  wishes: DayWishes,
): SessionState {
  const test: TestOpened = {
    test: 'T-1',
    vessel: 'Marram',
    at: 'Kettle Sound',
    mode: 'demo',
    particulars: {
      displacementT: DAY_DISPLACEMENT,
      displacementUncertaintyT: 0.3,
      kmM: 2.9,
      kmUncertaintyM: 0.008,
      metacentreMovementM: wishes.metacentreMovementM ?? null,
      gmGuessM: 1,
      gmGuessUncertaintyM: 0.25,
      beamM: 5,
      lengthM: 16.4,
    },
    weights: WEIGHTS.map((weight) => ({
      weight,
      massT: 0.5,
      massUncertaintyT: 0.00025,
      certificate: 'W-7',
      at: place(HOME[weight]!),
    })),
    distanceUncertaintyM: 0.003,
    plan: [],
  };
  return {
    record: 'r',
    lines: 100,
    test,
    testOpened: written(0),
    corrected: [],
    simulation: null,
    mountings: SENSORS.map(mountingOf),
    certificates: SENSORS.map(certificateOf),
    replacedCertificates: [],
    remounted: [],
    signs: [],
    people: EMPTY_PEOPLE,
    streams: [],
    faults: [],
    weightsAt,
    awaits: 'nothing',
    states,
    disturbances: [],
    stopTarget: null,
    rollRuns: [],
    rollCondition: null,
    survey: EMPTY_SURVEY,
    postponed: null,
    pauses: [],
    timeMarks: [],
    remarks: [],
    laptop: [],
    closed: null,
  };
}

function mountingOf(instrument: string): Mounting {
  return {
    instrument,
    label: instrument,
    kind: instrument === 'tube' ? 'water-tube' : 'inclinometer',
    sign: 1,
    spanM: instrument === 'tube' ? 4 : null,
    heightOverRollAxisM: 1,
    settlingS: 1,
  };
}

function certificateOf(instrument: string): Certificate {
  return {
    number: `C-${instrument}`,
    instrument,
    method: 'sine bar',
    madeBy: 'A. Rowan',
    date: '2026-05-01',
    zero: 0,
    scale: 1,
    scaleUncertainty: 0.0015,
    leftOver: 0.001,
    temperatureC: 18,
    points: [],
  };
}

/** The same day with one accepted reading voided. */
export function withVoided(day: SessionState, number: number): SessionState {
  const state = day.states[number]!;
  const voided = {
    reading: state.reading!,
    written: state.readingWritten!,
    reason: 'a gust',
    voided: written(500),
  };
  const changed = { ...state, reading: null, readingWritten: null, voided: [voided] };
  return { ...day, states: day.states.with(number, changed) };
}
