import { Fault } from '../fault/fault.ts';
import { fBeyond } from '../numerics/f-distribution.ts';
import { bracketedRoot } from '../numerics/root.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import {
  type Column,
  interceptColumns,
  type LineReadings,
  type LineRows,
  lineRows,
  shrunkFit,
  shrunkRest,
} from './line-model.ts';

/** A variance ratio: so much against chance with (upper, lower) degrees of freedom. */
export interface FTest {
  readonly f: number;
  readonly upperDof: number;
  readonly lowerDof: number;
  /** Probability of so much by chance. */
  readonly probability: number;
}

/** The line of a test. Tangents are dimensionless; slope is tangent per unit of moment. */
export interface LineFit {
  readonly slope: Uncertain;
  /** Tangent all instruments drifted together over the whole time; null where none is taken off. */
  readonly drift: Uncertain | null;
  /** Tangent each instrument shows at no moment: the list and its own mounting together. */
  readonly intercepts: readonly Uncertain[];
  /** Mean of the intercepts, weighted as the instruments are. */
  readonly listTangent: number;
  /** Freedom left to the states: states less one for each group of instruments, less the slope. */
  readonly statesDof: number;
  /** Freedom left within states, 0 for a single instrument. */
  readonly withinDof: number;
  /** Standard deviation of one reading by one instrument, its own; null when nothing repeats it. */
  readonly ownDeviation: number | null;
  /** Standard deviation the instruments of a state share; null when it cannot be told apart. */
  readonly stateDeviation: number | null;
  /** Shared over own variance as used for weighting. */
  readonly varianceRatio: number;
  /** Is there an error shared by all instruments of a state? Null without repeats. */
  readonly stateEffect: FTest | null;
  /** Mean of a state's instruments, each less its intercept and drift, plus the mean intercept. */
  readonly stateTangents: readonly number[];
  readonly fittedTangents: readonly number[];
  /** stateTangents less fittedTangents. */
  readonly stateResiduals: readonly number[];
  /** Each reading less the line of its own instrument; null where not read. */
  readonly readingResiduals: readonly (readonly (number | null)[])[];
}

/**
 * reading(state, instrument) = intercept(instrument) + slope * moment(state) + an error shared by
 * the state + an own error. The uncertainty of the slope comes from the scatter of the states,
 * with Student's t: instruments of one state are never counted as independent. Never through the
 * origin. Where every instrument was read in every state this is ordinary least squares of the
 * states' means, exactly; where readings are missing, generalised least squares with the shared
 * variance found by moments. States weigh alike: with some nine of them, weights learned from
 * their scatter would cost more in honesty than they bring.
 *
 * Source: the model is a two-way layout with a random state effect (Searle, Casella & McCulloch,
 * Variance Components, 1992, from memory); checked on Hansen 1985 (tests/published).
 * `varianceRatio` given: used as it is (for refits that must weigh alike).
 */
export function fitLine(readings: LineReadings, varianceRatio?: number): LineFit {
  const rows = lineRows(readings);
  const columns = lineColumns(rows);
  const within = shrunkRest(rows, interceptColumns(rows), Number.POSITIVE_INFINITY);
  const withinDof = rows.rows.length - rows.states - within.rank;
  const statesDof = rows.states + within.rank - rows.instruments - (rows.drift === null ? 1 : 2);
  if (statesDof < 1) {
    throw new Fault(
      'line-not-determined',
      'states',
      `${rows.states} states leave nothing over for ${rows.instruments} instruments`,
    );
  }
  const shared = { rows, columns, withinRest: within.rest, withinDof, statesDof };
  const ratio = varianceRatio ?? learnedRatio(shared);
  const fit = shrunkFit(rows, columns, ratio);
  const statesVariance = betweenRest(shared, ratio) / statesDof;
  const ownVariance = withinDof > 0 ? within.rest / withinDof : null;
  const coefficient = (k: number, scale: number): Uncertain => ({
    value: fit.coefficients[k]! / scale,
    standardUncertainty: Math.sqrt(statesVariance * fit.cofactor[k]![k]!) / scale,
    degreesOfFreedom: statesDof,
  });
  const slope = coefficient(rows.instruments, rows.momentScale);
  return {
    slope,
    drift: rows.drift === null ? null : coefficient(rows.instruments + 1, 1),
    intercepts: interceptsAtNoMoment(rows, fit, statesVariance, statesDof),
    statesDof,
    withinDof,
    ownDeviation: ownVariance === null ? null : Math.sqrt(ownVariance),
    stateDeviation: ownVariance === null ? null : Math.sqrt(ratio * ownVariance),
    varianceRatio: ratio,
    stateEffect: stateEffectTest(shared, ownVariance),
    ...alongTheLine(rows, fit.coefficients),
  };
}

/** Intercept of each instrument, then the slope, then the drift where one is taken off. */
export function lineColumns(rows: LineRows): Column[] {
  const { x, drift } = rows;
  return [
    ...interceptColumns(rows),
    (state) => x[state]!,
    ...(drift === null ? [] : [(state: number) => drift[state]!]),
  ];
}

interface Shared {
  readonly rows: LineRows;
  readonly columns: readonly Column[];
  readonly withinRest: number;
  readonly withinDof: number;
  readonly statesDof: number;
}

/** Sum of squares between states: what the line leaves beyond the scatter within states. */
function betweenRest(shared: Shared, ratio: number): number {
  const total = shrunkRest(shared.rows, shared.columns, ratio).rest;
  // a difference of two sums of squares: below zero only by rounding, when the states lie exactly
  return Math.max(0, total - shared.withinRest);
}

/** A shared variance beyond this share of an instrument's own, or under that, changes nothing any more. */
const MOST_RATIO = 1e4;
const LEAST_RATIO = 1e-6;
/** Own variance over the mean square of the tangents below which only rounding is left of it. */
const ROUNDING = 1e-24;

/** The ratio at which states scatter as much as the two variances together say. */
function learnedRatio(shared: Shared): number {
  if (shared.withinDof === 0) return 0;
  const { rows } = shared.rows;
  const square = rows.reduce((sum, row) => sum + row.tangent ** 2, 0) / rows.length;
  const own = shared.withinRest / shared.withinDof;
  if (own <= ROUNDING * square) {
    return betweenRest(shared, 0) / shared.statesDof <= ROUNDING * square ? 0 : MOST_RATIO;
  }
  const excess = (ratio: number) => betweenRest(shared, ratio) / shared.statesDof - own;
  if (excess(LEAST_RATIO) <= 0) return 0;
  if (excess(MOST_RATIO) >= 0) return MOST_RATIO;
  return Math.exp(
    bracketedRoot((log) => excess(Math.exp(log)), Math.log(LEAST_RATIO), Math.log(MOST_RATIO)),
  );
}

function stateEffectTest(shared: Shared, ownVariance: number | null): FTest | null {
  if (ownVariance === null || ownVariance === 0) return null;
  const f = betweenRest(shared, 0) / shared.statesDof / ownVariance;
  return fTest(f, shared.statesDof, shared.withinDof);
}

export function fTest(f: number, upperDof: number, lowerDof: number): FTest {
  return { f, upperDof, lowerDof, probability: fBeyond(f, upperDof, lowerDof) };
}

function interceptsAtNoMoment(
  rows: LineRows,
  fit: ReturnType<typeof shrunkFit>,
  variance: number,
  statesDof: number,
): Uncertain[] {
  const toZero = -rows.middleMoment / rows.momentScale;
  const last = rows.instruments;
  return Array.from({ length: rows.instruments }, (_, j) => {
    const { coefficients, cofactor } = fit;
    const spread =
      cofactor[j]![j]! + 2 * toZero * cofactor[j]![last]! + toZero ** 2 * cofactor[last]![last]!;
    return {
      value: coefficients[j]! + toZero * coefficients[last]!,
      standardUncertainty: Math.sqrt(variance * spread),
      degreesOfFreedom: statesDof,
    };
  });
}

function alongTheLine(rows: LineRows, coefficients: readonly number[]) {
  const slope = coefficients[rows.instruments]!;
  const drifted = coefficients[rows.instruments + 1] ?? 0;
  const sums = Array.from({ length: rows.states }, () => ({ weight: 0, tangent: 0 }));
  const weights = new Array<number>(rows.instruments).fill(0);
  const readingResiduals = Array.from({ length: rows.states }, () =>
    new Array<number | null>(rows.instruments).fill(null),
  );
  for (const row of rows.rows) {
    const weight = row.root * row.root;
    const own =
      row.tangent - coefficients[row.instrument]! - drifted * (rows.drift?.[row.state] ?? 0);
    weights[row.instrument] = weight;
    sums[row.state]!.weight += weight;
    sums[row.state]!.tangent += weight * own;
    readingResiduals[row.state]![row.instrument] = own - slope * rows.x[row.state]!;
  }
  const weight = weights.reduce((sum, value) => sum + value, 0);
  const middle = weights.reduce((sum, value, j) => sum + value * coefficients[j]!, 0) / weight;
  const stateTangents = sums.map((sum) => middle + sum.tangent / sum.weight);
  const fittedTangents = rows.x.map((x) => middle + slope * x);
  return {
    listTangent: middle - (slope * rows.middleMoment) / rows.momentScale,
    stateTangents,
    fittedTangents,
    stateResiduals: stateTangents.map((tangent, i) => tangent - fittedTangents[i]!),
    readingResiduals,
  };
}
