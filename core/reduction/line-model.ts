import { Fault } from '../fault/fault.ts';
import { type LeastSquares, leastSquares } from '../numerics/least-squares.ts';
import { type Orthogonalised, orthogonalised, restAndRank } from '../numerics/rest-and-rank.ts';
import { checkAllFinite, checkEqualLength, checkFinite, checkPositive } from '../quantity/check.ts';

/**
 * The readings of a test as the line sees them. A state is one arrangement of the weights as read
 * once; all instruments of a state share its error.
 */
export interface LineReadings {
  /** Heeling moment of each state since the first, starboard positive, in any one unit. */
  readonly moments: readonly number[];
  /** tangents[state][instrument], tangent of heel; null where an instrument was not read. */
  readonly tangents: readonly (readonly (number | null)[])[];
  /** Each instrument's own variance relative to the others; equal when not given. */
  readonly ownVariances?: readonly number[];
  /** A drift all instruments share, straight in time: a time of each state, in any one unit. */
  readonly driftTimes?: readonly number[];
}

export const MOST_STATES = 120;
export const MOST_INSTRUMENTS = 12;

interface Row {
  readonly state: number;
  readonly instrument: number;
  readonly tangent: number;
  /** Root of the weight: one over the instrument's own deviation, relative. */
  readonly root: number;
}

/** Readings brought to rows, the moments centred and scaled to about one. */
export interface LineRows {
  readonly rows: readonly Row[];
  readonly states: number;
  readonly instruments: number;
  readonly middleMoment: number;
  readonly momentScale: number;
  /** (moment - middle) / scale of each state. */
  readonly x: readonly number[];
  /** Times since the first state over the whole time, where a drift is taken off; else null. */
  readonly drift: readonly number[] | null;
}

/**
 * Rows of the readings; a fault where a shape does not fit, a number is not finite, a state or an
 * instrument has no reading at all, or fewer than three states stand.
 */
export function lineRows(readings: LineReadings): LineRows {
  const { moments, tangents } = readings;
  checkEqualLength(moments, tangents, 'moments and tangents');
  checkAllFinite(moments, 'moments');
  const states = moments.length;
  const instruments = tangents[0]?.length ?? 0;
  if (states > MOST_STATES || instruments > MOST_INSTRUMENTS) {
    throw new Fault('input-too-large', 'readings', `${states} states, ${instruments} instruments`);
  }
  if (states < 3) {
    throw new Fault('input-too-few', 'states', `${states} read, at least 3 are needed for a line`);
  }
  const roots = rootsOfWeights(readings.ownVariances, instruments);
  const rows: Row[] = [];
  tangents.forEach((ofState, state) => {
    checkEqualLength(ofState, tangents[0]!, `tangents[${state}]`);
    ofState.forEach((tangent, instrument) => {
      if (tangent === null) return;
      checkFinite(tangent, `tangents[${state}][${instrument}]`);
      rows.push({ state, instrument, tangent, root: roots[instrument]! });
    });
  });
  checkNoneEmpty(rows, states, instruments);
  const middleMoment = moments.reduce((sum, moment) => sum + (moment - moments[0]!), 0) / states;
  const middle = moments[0]! + middleMoment;
  const momentScale = Math.max(...moments.map((moment) => Math.abs(moment - middle)));
  if (momentScale === 0) {
    throw new Fault('line-not-determined', 'moments', `all ${states} are ${moments[0]}`);
  }
  const x = moments.map((moment) => (moment - middle) / momentScale);
  const drift = driftOf(readings);
  return { rows, states, instruments, middleMoment: middle, momentScale, x, drift };
}

/** The first state has no drift, so that intercepts are those of the first state's time. */
function driftOf({ driftTimes, moments }: LineReadings): number[] | null {
  if (driftTimes === undefined) return null;
  checkEqualLength(driftTimes, moments, 'driftTimes and moments');
  checkAllFinite(driftTimes, 'driftTimes');
  const since = driftTimes.map((time) => time - driftTimes[0]!);
  const whole = Math.max(...since.map(Math.abs));
  if (whole === 0) throw new Fault('line-not-determined', 'driftTimes', 'all are the same');
  return since.map((time) => time / whole);
}

function rootsOfWeights(variances: readonly number[] | undefined, instruments: number): number[] {
  if (variances === undefined) return new Array<number>(instruments).fill(1);
  if (variances.length !== instruments) {
    throw new Fault('input-unequal-length', 'ownVariances', `${variances.length}`);
  }
  const mean = variances.reduce((sum, value) => sum + value, 0) / instruments;
  return variances.map((variance, j) =>
    Math.sqrt(mean / checkPositive(variance, `ownVariances[${j}]`)),
  );
}

function checkNoneEmpty(rows: readonly Row[], states: number, instruments: number): void {
  const readStates = new Set(rows.map((row) => row.state));
  const readInstruments = new Set(rows.map((row) => row.instrument));
  for (let state = 0; state < states; state++) {
    if (!readStates.has(state)) throw new Fault('input-too-few', `tangents[${state}]`, 'none read');
  }
  for (let instrument = 0; instrument < instruments; instrument++) {
    if (!readInstruments.has(instrument)) {
      throw new Fault('input-too-few', `instrument ${instrument}`, 'not read in any state');
    }
  }
}

/** Value of a column at each row, by state and instrument. */
export type Column = (state: number, instrument: number) => number;

/** One column an instrument: its intercept. */
export function interceptColumns(lineRows: LineRows): Column[] {
  return Array.from(
    { length: lineRows.instruments },
    (_, wanted): Column =>
      (_state, instrument) =>
        instrument === wanted ? 1 : 0,
  );
}

/**
 * Generalised least squares with the states' shared variance `ratio` times the instruments' own:
 * rows are weighted, then the part common to a state is shrunk as much as the shared variance asks.
 */
export function shrunkFit(
  lineRows: LineRows,
  columns: readonly Column[],
  ratio: number,
): LeastSquares {
  const whitened = whiten(lineRows, columns, ratio);
  const design = whitened.tangents.map((_, i) => whitened.columns.map((column) => column[i]!));
  return leastSquares(design, whitened.tangents);
}

/** The same for sum of squares and rank only; `ratio` Infinity compares within states alone. */
export function shrunkRest(
  lineRows: LineRows,
  columns: readonly Column[],
  ratio: number,
): { rest: number; rank: number } {
  const whitened = whiten(lineRows, columns, ratio);
  return restAndRank(whitened.columns, weightedLengths(lineRows, columns), whitened.tangents);
}

/** Weighted residuals within states once the columns are taken off, and the basis taken off. */
export function withinStates(lineRows: LineRows, columns: readonly Column[]): Orthogonalised {
  const whitened = whiten(lineRows, columns, Number.POSITIVE_INFINITY);
  return orthogonalised(whitened.columns, weightedLengths(lineRows, columns), whitened.tangents);
}

function weightedLengths(lineRows: LineRows, columns: readonly Column[]): number[] {
  return columns.map((column) =>
    Math.hypot(...lineRows.rows.map((row) => row.root * column(row.state, row.instrument))),
  );
}

function whiten(
  lineRows: LineRows,
  columns: readonly Column[],
  ratio: number,
): { tangents: number[]; columns: number[][] } {
  const { rows } = lineRows;
  const weights = new Array<number>(lineRows.states).fill(0);
  for (const row of rows) weights[row.state]! += row.root * row.root;
  const shrink = weights.map((weight) => (1 - 1 / Math.sqrt(1 + ratio * weight)) / weight);
  const apply = (valueAt: (row: Row) => number): number[] => {
    const sums = new Array<number>(lineRows.states).fill(0);
    for (const row of rows) sums[row.state]! += row.root * row.root * valueAt(row);
    return rows.map((row) => row.root * (valueAt(row) - shrink[row.state]! * sums[row.state]!));
  };
  return {
    tangents: apply((row) => row.tangent),
    columns: columns.map((column) => apply((row) => column(row.state, row.instrument))),
  };
}
