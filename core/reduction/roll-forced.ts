import { amplitudeAtStartDeg } from './roll-decay.ts';
import { type DecayFit, fitDecay, type RollSamples } from './roll-decay-fit.ts';
import { type DecaySpread, spreadOfDecay } from './roll-decay-spread.ts';

/** What tells a free roll from one that wind, waves or people drive. */
export interface ForcedEvidence {
  /** Share of its amplitude she loses in a cycle, by the decaying cosine, and its standard uncertainty. */
  readonly lostPerCycle: number;
  readonly lostPerCycleUncertainty: number;
  /** Driven roll left over, as a share of the roll at its start (root mean squares). */
  readonly leftOverShare: number;
  /** Correlation of what is left over one sixteenth of a period apart: near 0 is noise, near 1 a swing. */
  readonly leftOverCorrelation: number;
  /** The strongest other swing in what is left over: period, and amplitude as a share of the first amplitude. */
  readonly otherPeriodS: number | null;
  readonly otherShare: number;
  /** Period of the later half less that of the earlier, as a share; null where a half tells none. */
  readonly periodChange: number | null;
  readonly periodChangeUncertainty: number | null;
}

export const RUN_REFUSALS = [
  'too-few-cycles',
  'not-decaying',
  'not-one-frequency',
  'period-changes',
  'left-over',
] as const;
export interface RunRefusal {
  readonly reason: (typeof RUN_REFUSALS)[number];
  readonly words: string;
}

/** A.749(18) annex 3, 3.16.1.3 asks for about five complete oscillations. */
export const CYCLES_ASKED = 5;
/** All others here are our settings: no text gives a number. */
const FEWEST_CYCLES = 4.75;
const DECAY_SHOWN = 2.5;
const MOST_OTHER_SHARE = 0.15;
const MOST_LEFT_OVER = 0.2;
const MOST_PERIOD_CHANGE = 0.05;
const PERIOD_CHANGE_SHOWN = 3;
const LINES_TRIED = 120;
const LINES_APART = 1.2;
const MOST_FOR_LINES = 5000;
const FEWEST_CYCLES_A_HALF = 2;

/** `plain` is the decaying cosine, `best` the fit that is used: the same, or with both dampings. */
export function forcedEvidence(
  samples: RollSamples,
  plain: { readonly fit: DecayFit; readonly spread: DecaySpread },
  best: { readonly fit: DecayFit; readonly spread: DecaySpread },
): ForcedEvidence {
  const { roll, curve } = best.fit;
  const periodS = (2 * Math.PI) / roll.omegaPerS;
  const kept = Math.exp(-plain.fit.roll.decayPerS * periodS);
  const swingDeg = amplitudeAtStartDeg(roll);
  const other = strongestLine(samples.timeS, curve.residuals, periodS);
  const change = periodChange(samples, periodS);
  return {
    lostPerCycle: 1 - kept,
    lostPerCycleUncertainty: kept * periodS * Math.sqrt(plain.spread.covariance[4]![4]!),
    leftOverShare: (Math.SQRT2 * best.spread.drivenDeg) / swingDeg,
    leftOverCorrelation: correlationApart(samples.timeS, curve.residuals, periodS / 16),
    otherPeriodS: other?.periodS ?? null,
    otherShare: (other?.amplitudeDeg ?? 0) / swingDeg,
    periodChange: change?.value ?? null,
    periodChangeUncertainty: change?.standardUncertainty ?? null,
  };
}

const percent = (share: number) => `${(100 * share).toPrecision(2)} %`;

/** The first reason why a stretch is no run of free roll; null: none is seen. */
export function refusalOf(evidence: ForcedEvidence, cycles: number): RunRefusal | null {
  const { lostPerCycle, lostPerCycleUncertainty: unsure, otherShare, otherPeriodS } = evidence;
  const { periodChange: change, periodChangeUncertainty } = evidence;
  const why = (reason: RunRefusal['reason'], words: string) => ({ reason, words });
  if (otherShare > MOST_OTHER_SHARE && otherPeriodS !== null) {
    const found = `a second swing of ${otherPeriodS.toPrecision(3)} s has ${percent(otherShare)} of the amplitude`;
    return why('not-one-frequency', `${found}; waves or wind drive her`);
  }
  if (lostPerCycle < DECAY_SHOWN * unsure) {
    const found = `the amplitude is not seen to fall: ${percent(lostPerCycle)} ± ${percent(unsure)} a cycle, one standard uncertainty`;
    return why('not-decaying', `${found}; something drives her`);
  }
  if (evidence.leftOverShare > MOST_LEFT_OVER) {
    const found = `the decaying cosine leaves a swing of ${percent(evidence.leftOverShare)} of the roll`;
    return why('left-over', `${found}, not noise; she is driven more than she rolls freely`);
  }
  if (
    change !== null &&
    periodChangeUncertainty !== null &&
    Math.abs(change) > MOST_PERIOD_CHANGE &&
    Math.abs(change) > PERIOD_CHANGE_SHOWN * periodChangeUncertainty
  ) {
    const found = `the period of the later half differs by ${percent(change)} from the earlier`;
    return why('period-changes', `${found}; a free roll keeps its own`);
  }
  if (cycles < FEWEST_CYCLES) {
    return why('too-few-cycles', `${cycles.toPrecision(2)} cycles, ${CYCLES_ASKED} are asked`);
  }
  return null;
}

/** The strongest line in what is left over, away from her own period by more than the record tells apart. */
function strongestLine(
  timeS: ArrayLike<number>,
  residuals: Float64Array,
  periodS: number,
): { periodS: number; amplitudeDeg: number } | null {
  const lengthS = timeS[timeS.length - 1]! - timeS[0]!;
  const step = Math.ceil(residuals.length / MOST_FOR_LINES);
  let best: { periodS: number; amplitudeDeg: number } | null = null;
  for (let line = 0; line <= LINES_TRIED; line++) {
    const tried = 6 ** (1 - (2 * line) / LINES_TRIED) * periodS;
    const apart = Math.abs(1 / tried - 1 / periodS) * lengthS;
    if (apart < LINES_APART || tried > lengthS / 1.5) continue;
    let cosine = 0;
    let sine = 0;
    let count = 0;
    for (let k = 0; k < residuals.length; k += step) {
      const turn = (2 * Math.PI * timeS[k]!) / tried;
      cosine += residuals[k]! * Math.cos(turn);
      sine += residuals[k]! * Math.sin(turn);
      count += 1;
    }
    const amplitudeDeg = (2 * Math.hypot(cosine, sine)) / count;
    if (best === null || amplitudeDeg > best.amplitudeDeg) best = { periodS: tried, amplitudeDeg };
  }
  return best;
}

/** Correlation of residuals with those `lagS` later (the first at or after). */
function correlationApart(timeS: ArrayLike<number>, residuals: Float64Array, lagS: number): number {
  let later = 0;
  let product = 0;
  let squares = 0;
  for (let k = 0; k < residuals.length; k++) {
    while (later < residuals.length && timeS[later]! < timeS[k]! + lagS) later += 1;
    if (later === residuals.length) break;
    product += residuals[k]! * residuals[later]!;
    squares += (residuals[k]! ** 2 + residuals[later]! ** 2) / 2;
  }
  return squares === 0 ? 0 : product / squares;
}

function periodChange(
  { timeS, heelDeg }: RollSamples,
  periodS: number,
): { value: number; standardUncertainty: number } | null {
  const lengthS = timeS[timeS.length - 1]!;
  if (lengthS < 2 * FEWEST_CYCLES_A_HALF * periodS) return null;
  let middle = 0;
  while (timeS[middle]! < lengthS / 2) middle += 1;
  const halves = [
    { from: 0, to: middle },
    { from: middle, to: timeS.length },
  ].map(({ from, to }) => {
    const half = {
      timeS: Array.from({ length: to - from }, (_, k) => timeS[from + k]! - timeS[from]!),
      heelDeg: Array.from({ length: to - from }, (_, k) => heelDeg[from + k]!),
    };
    const fit = fitDecay(half, periodS, false);
    const { covariance } = spreadOfDecay(half, fit);
    const omega = fit.roll.omegaPerS;
    return { omega, relative: Math.sqrt(covariance[3]![3]!) / omega };
  });
  return {
    value: halves[0]!.omega / halves[1]!.omega - 1,
    standardUncertainty: Math.hypot(halves[0]!.relative, halves[1]!.relative),
  };
}
