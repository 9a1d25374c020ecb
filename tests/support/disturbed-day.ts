import { createRandom } from '#core/numerics/random.ts';
import { studentTBeyond } from '#core/numerics/student-t.ts';
import { fitRoll } from '#core/steadiness/fit-roll.ts';
import { blockMeans, blocksWithRinging } from '#core/steadiness/heel-blocks.ts';
import { FIRST_PRIOR } from '#core/steadiness/roll-prior.ts';
import { createWatch } from '#core/steadiness/watch.ts';
import type { NotUsed, TakenReading } from '#core/steadiness/watch-types.ts';
import {
  DISTURBANCE_KINDS,
  type DisturbanceKind,
  type DisturbedState,
  disturbedState,
  drawnVessel,
  INSTRUMENTS,
  ZERO_STEP_DEG,
} from './disturbed-state.ts';

/** States of a day: the zero is quiet, as people hold still for it; then one disturbance each. */
const DISTURBED_STATES = 4;
const STATE_S = 330;
const CARRYING_S = 12;
const MOVES_DEG = 0.02;
const MOVES_ERRORS = 4;

/** What became of one state. */
export interface StateOutcome {
  readonly kind: DisturbanceKind;
  /** Would the reading have been moved by more than the larger of .02 degree and four of its standard errors? */
  readonly moves: boolean;
  readonly sizeDeg: number;
  /** Was it found before a reading was accepted? */
  readonly caught: boolean;
  /** What it was called, null when it was not found. */
  readonly called: string | null;
  readonly reading: TakenReading | null;
  /** Probability of a heel under the read one by the reading's own law, the truth being the mean. */
  readonly below: number | null;
  /** Seconds not used after a wake was over for her, null for others. */
  readonly wasteS: number | null;
  /** Stretches that had nothing to do with the disturbance. */
  readonly stray: readonly NotUsed[];
  readonly watchedS: number;
  readonly landedS: number;
  readonly fromS: number;
  readonly toS: number;
  readonly instrument: string | null;
}

/** A day on a drawn vessel: every reading is taken as soon as it is offered after a drawn time. */
export function disturbedDay(seed: number): StateOutcome[] {
  const vessel = drawnVessel(seed);
  const random = createRandom(seed, 'day');
  const watch = createWatch({
    instruments: INSTRUMENTS.map((instrument) => ({
      instrument,
      label: instrument,
      settlingS: 1,
      refused: null,
    })),
  });
  const outcomes: StateOutcome[] = [];
  let nowS = 0;
  for (let state = 0; state <= DISTURBED_STATES; state++) {
    const at = Math.floor(random.uniform() * DISTURBANCE_KINDS.length);
    const kind = state === 0 ? 'none' : DISTURBANCE_KINDS[at]!;
    const readAfterS = random.between(30, 80);
    const drawn = disturbedState(vessel, {
      ...{ seed: seed * 100 + state, kind, meanDeg: random.between(-2, 2) },
      ...{ lengthS: STATE_S, withinS: readAfterS - 4 },
    });
    const landedS = nowS;
    watch.beginState(landedS);
    const found: NotUsed[] = [];
    let reading: TakenReading | null = null;
    let k = 0;
    for (; k < STATE_S * 10 && reading === null; k++) {
      const atS = landedS + (k + 1) / 10;
      for (const name of INSTRUMENTS) watch.push(name, atS, drawn.shownDeg[name][k]!);
      if (k % 5 !== 4) continue;
      found.push(...watch.finished());
      if (k / 10 < readAfterS || !watch.picture(atS + 0.5).joined.readable) continue;
      const open = watch.picture(atS + 0.5).notUsed.filter(({ toS }) => toS === atS + 0.5);
      found.push(...open);
      reading = watch.takeReading(atS + 0.5);
    }
    nowS = landedS + k / 10;
    outcomes.push(outcomeOf(drawn, reading, found, landedS, k, vessel.rollDeg));
    watch.carrying(nowS);
    nowS = Math.ceil(nowS + CARRYING_S);
  }
  return outcomes;
}

const overlaps = (one: NotUsed, fromS: number, toS: number) => one.fromS < toS && one.toS > fromS;

function outcomeOf(
  drawn: DisturbedState,
  reading: TakenReading | null,
  found: readonly NotUsed[],
  landedS: number,
  samples: number,
  rollDeg: number,
): StateOutcome {
  const { kind, fromS, toS } = drawn;
  // What she does about it goes on for some rolls.
  const its = found.filter((one) => overlaps(one, landedS + fromS - 3, landedS + toS + 40));
  const stray = found.filter(
    (one) => one.fromS > landedS && (kind === 'none' || !its.includes(one)),
  );
  const ownErrorDeg = its.length === 0 ? (reading?.joined.standardErrorDeg ?? 0) : 0;
  const effect =
    kind === 'none' ? { moves: false, sizeDeg: 0 } : effectOf(drawn, samples, ownErrorDeg);
  const right = its.find((one) => one.kind === kind);
  return {
    kind,
    ...effect,
    caught: kind !== 'none' && (its.length > 0 || reading === null),
    called: (right ?? its[0])?.kind ?? null,
    reading,
    below: reading === null ? null : belowOf(drawn, reading, landedS),
    wasteS: kind === 'wake' && its.length > 0 ? wasteOf(drawn, its, landedS, rollDeg) : null,
    stray,
    watchedS: samples / 10,
    ...{ landedS, fromS, toS, instrument: drawn.instrument },
  };
}

/**
 * How far the reading would have been off, had nobody looked; by one window alone. Where it was
 * accepted, its own standard error counts: what that covers has not moved it.
 */
function effectOf(
  drawn: DisturbedState,
  samples: number,
  ownErrorDeg: number,
): { moves: boolean; sizeDeg: number } {
  const upTo = Math.min(samples, drawn.cleanDeg.length);
  const of = (heel: readonly (number | null)[]) =>
    fitRoll(blocksWithRinging(blockMeans(heel.slice(8, upTo), 0.1)), FIRST_PRIOR);
  const clean = of(drawn.cleanDeg.slice(0, upTo));
  const name = drawn.instrument ?? INSTRUMENTS[0];
  const offset = ZERO_STEP_DEG * INSTRUMENTS.indexOf(name);
  const shown = drawn.shownDeg[name].slice(0, upTo);
  // What is missing or at the end of its range moves a reading beyond all measure.
  if (shown.every((heel) => heel === null)) return { moves: true, sizeDeg: 90 };
  const sizeDeg = of(shown).heelDeg - offset - clean.heelDeg;
  const limitDeg = Math.max(
    MOVES_DEG,
    MOVES_ERRORS * Math.max(ownErrorDeg, Math.sqrt(clean.widenedVariance)),
  );
  return { moves: Math.abs(sizeDeg) > limitDeg, sizeDeg };
}

function belowOf(drawn: DisturbedState, reading: TakenReading, landedS: number): number {
  const first = Math.max(0, Math.round((reading.fromS - landedS) * 10));
  const last = Math.min(drawn.restDeg.length, Math.round((reading.toS - landedS) * 10));
  const rests = drawn.restDeg.slice(first, last);
  const rest = rests.reduce((sum, one) => sum + one, 0) / rests.length;
  // The joined heel keeps the mean zero of all instruments, whichever are used.
  const zero = (ZERO_STEP_DEG * (INSTRUMENTS.length - 1)) / 2;
  const { heelDeg, standardErrorDeg, degreesOfFreedom } = reading.joined;
  const t = (heelDeg - rest - zero) / standardErrorDeg;
  const beyond = studentTBeyond(Math.abs(t), degreesOfFreedom);
  return t > 0 ? 1 - beyond : beyond;
}

/** From when the wake moves her by less than her own rolling does, to when counting goes on. */
function wasteOf(
  drawn: DisturbedState,
  its: readonly NotUsed[],
  landedS: number,
  rollDeg: number,
): number {
  const over = drawn.movedDeg.findLastIndex((moved) => Math.abs(moved) > rollDeg);
  return Math.max(...its.map((one) => one.toS)) - landedS - over / 10;
}
