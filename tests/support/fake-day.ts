import type { Line, LineBody, LineKind, Move, Place, TestOpened } from '#core/record/line.ts';
import type { Reading } from '#core/record/reading-line.ts';
import { EMPTY_SESSION, foldLine } from '#core/session/fold.ts';
import type { SessionState } from '#core/session/session.ts';

/** A make-believe day for the screen's tests: lines folded by the real fold, heels by one formula. */
export const FAKE_GM_M = 0.942;
const DISPLACEMENT_T = 46.82;
const LIST_DEG = 0.041;
const WEIGHTS: Readonly<Record<string, number>> = { A: 3.1, B: 3.9, C: 6.4, D: 7.2 };
const HALF_BEAM_M = 2.1;
const MASS_T = 0.251;
const START_MS = Date.UTC(2026, 10, 25, 13, 12, 4);

export const FAKE_INSTRUMENTS = [
  { instrument: 'fore-incline', label: 'Fore', kind: 'inclinometer' },
  { instrument: 'aft-incline', label: 'Aft', kind: 'inclinometer' },
  { instrument: 'tube', label: 'Water tube', kind: 'water-tube' },
] as const;

const place = (weight: string, side: number): Place => ({
  xM: WEIGHTS[weight] ?? 8,
  yM: side * HALF_BEAM_M,
  zM: 2.4,
});

/** A and B over to starboard and back, then C and D over to port and back. */
const PLAN: readonly (readonly [string, number])[] = [
  ['A', 1],
  ['B', 1],
  ['B', -1],
  ['A', -1],
  ['C', -1],
  ['D', -1],
  ['D', 1],
  ['C', 1],
];

const TEST: TestOpened = {
  test: 'fake-day',
  vessel: 'Marram',
  at: 'Kettle Sound, inner quay',
  mode: 'demo',
  particulars: {
    displacementT: DISPLACEMENT_T,
    displacementUncertaintyT: 0.15,
    kmM: 2.804,
    kmUncertaintyM: 0.004,
    metacentreMovementM: 0.9,
    gmGuessM: 0.9,
    gmGuessUncertaintyM: 0.2,
    beamM: 5.6,
    lengthM: 16.4,
  },
  weights: Object.keys(WEIGHTS).map((weight) => ({
    weight,
    massT: MASS_T,
    massUncertaintyT: 0.0005,
    certificate: `scale 14, weight ${weight}`,
    at: place(weight, weight < 'C' ? -1 : 1),
  })),
  distanceUncertaintyM: 0.005,
  plan: PLAN.map(([weight, side]) => ({ moves: [{ weight, to: place(weight, side) }] })),
};

/** Scatter that is the same in every run. */
function scatter(k: number): number {
  const x = Math.sin(k * 12.9898) * 43758.5453;
  return 2 * (x - Math.floor(x)) - 1;
}

export function fakeHeelDeg(heelingMomentTM: number): number {
  return LIST_DEG + (Math.atan(heelingMomentTM / (DISPLACEMENT_T * FAKE_GM_M)) * 180) / Math.PI;
}

/** The record of the fake day, as far as it has come, and the time of its own. */
export class FakeDay {
  session: SessionState = EMPTY_SESSION;
  nowS = 1000;
  #count = 0;

  constructor(withTest = true) {
    this.write('record-opened', { record: 'fake-record', format: 1, program: 'fake' }, 'receiver');
    if (!withTest) return;
    this.write('test-opened', TEST, 'architect');
    this.write(
      'simulation',
      {
        seed: 1,
        paceAsked: 20,
        paceHeld: 18,
        disturbances: { wind: true, gusts: false, wakes: true, walking: false, snaggedLine: false },
        truth: { gmFluidM: FAKE_GM_M, displacementT: DISPLACEMENT_T },
      },
      'simulator',
    );
    for (const [k, each] of FAKE_INSTRUMENTS.entries()) this.#mount(k, each);
    for (const board of ['board-fore', 'board-aft']) this.#openStream(board);
  }

  get wall(): string {
    return new Date(START_MS + (this.nowS - 1000) * 1000).toISOString();
  }

  write<K extends LineKind>(
    kind: K,
    body: LineBody<K>,
    role: Line['role'],
    author: string = role,
  ): void {
    const line = {
      n: this.session.lines,
      kind,
      v: 1,
      prev: '0'.repeat(64),
      wall: this.wall,
      receiverS: this.nowS,
      author,
      role,
      body,
    };
    this.session = foldLine(this.session, line as unknown as Line);
  }

  /** The state's own heel and, from it, where the vessel comes to rest now. */
  get restDeg(): number {
    const state = this.session.states.at(-1);
    if (state === undefined) return LIST_DEG;
    const before = this.session.states.at(-2);
    const moment =
      this.session.awaits === 'landing' ? (before?.heelingMomentTM ?? 0) : state.heelingMomentTM;
    return fakeHeelDeg(moment);
  }

  begin(author: string): void {
    const state = this.session.states.length;
    const planned = TEST.plan[state - 1];
    if (planned === undefined) return;
    const moves: Move[] = planned.moves.map((move) => ({
      weight: move.weight,
      from: this.session.weightsAt[move.weight] ?? move.to,
      to: move.to,
    }));
    const before = this.session.states.at(-1)?.heelingMomentTM ?? 0;
    const added = moves.reduce((sum, move) => sum + MASS_T * (move.to.yM - move.from.yM), 0);
    const heelingMomentTM = Math.abs(before + added) < 1e-9 ? 0 : before + added;
    this.write(
      'shift-begun',
      {
        state,
        moves,
        heelingMomentTM,
        predictedHeelDeg: fakeHeelDeg(heelingMomentTM) + 0.01 * scatter(state + 40),
        predictedStandardErrorDeg: state < 3 ? 0.09 : 0.006,
      },
      'architect',
      author,
    );
  }

  land(author: string): void {
    const state = this.session.states.length - 1;
    this.write('weight-landed', { state, landedS: this.nowS }, 'architect', author);
  }

  read(author: string, offDeg = 0): void {
    this.#count += 1;
    const state = this.session.states.length - 1;
    const heelDeg = this.restDeg + offDeg + 0.002 * scatter(this.#count);
    const reading: Reading = {
      state,
      estimator: 'fake-1',
      fromS: this.nowS - 90,
      toS: this.nowS,
      countedS: 64,
      joined: { heelDeg, standardErrorDeg: 0.003, degreesOfFreedom: 38 },
      instruments: FAKE_INSTRUMENTS.map(({ instrument, label }, k) => ({
        instrument,
        label,
        certificate: `${instrument}-2026`,
        sampleRateHz: 50,
        heelDeg: heelDeg + 0.002 * (k - 1) + 0.001 * scatter(10 * this.#count + k),
        standardErrorDeg: 0.003 + 0.001 * k,
        degreesOfFreedom: 38,
      })),
      rollPeriodS: 4.72,
      dampingRatio: 0.035,
    };
    this.write('reading', reading, 'architect', author);
  }

  /** Shifts and readings up to and with this state, ten minutes each; the second one struck once. */
  goOn(toState: number): void {
    for (let state = this.session.states.length - 1; state <= toState; state += 1) {
      if (state > 0 && this.session.states.length <= state) {
        this.nowS += 240;
        this.begin('E. Thorne');
        this.nowS += 120;
        this.land('E. Thorne');
      }
      this.nowS += 200;
      if (state === 2) this.#struck();
      this.read('E. Thorne');
    }
  }

  #struck(): void {
    this.read('E. Thorne', -0.04);
    const line = this.session.states.at(-1)?.readingWritten?.line ?? 0;
    this.nowS += 60;
    this.write('reading-voided', { line, reason: 'Line touched' }, 'architect', 'E. Thorne');
    this.nowS += 150;
  }

  #mount(k: number, each: (typeof FAKE_INSTRUMENTS)[number]): void {
    const tube = each.kind === 'water-tube';
    this.write(
      'mounting',
      {
        instrument: each.instrument,
        label: each.label,
        kind: each.kind,
        sign: 1,
        spanM: tube ? 4.2 : null,
        heightOverRollAxisM: 1,
        settlingS: tube ? 20 : 1,
      },
      'technician',
    );
    this.write(
      'certificate',
      {
        number: `${each.instrument}-2026`,
        instrument: each.instrument,
        method: tube ? 'water poured in, 9 levels' : 'sine bar, 11 angles',
        madeBy: 'Simulator',
        date: '2026-11-20',
        zero: tube ? 0.31 : 7.2e-5,
        scale: 0.9987 + k * 0.0004,
        scaleUncertainty: 0.0015,
        leftOver: tube ? 0.2 : 2.6e-5,
        temperatureC: 20,
        points: [],
      },
      'technician',
    );
  }

  #openStream(board: string): void {
    this.write(
      'stream-opened',
      {
        type: 'stream-opened',
        stream: `station-a/${board}/1`,
        number: 0,
        v: 1,
        station: 'station-a',
        board,
        boardIsOurs: true,
        resetCounter: 3,
        port: 'emulated',
        firmware: 'heelwright 1',
        periodUs: 20_000,
        channels: [{ instrument: FAKE_INSTRUMENTS[0].instrument, quantity: 'y', part: 'iis2iclx' }],
        openedStationS: 0,
      },
      'device',
    );
  }
}
