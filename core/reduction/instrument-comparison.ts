import { type StraightLine, straightLine } from '../numerics/least-squares.ts';
import { type FTest, fTest } from './line.ts';
import {
  type Column,
  interceptColumns,
  type LineReadings,
  type LineRows,
  lineRows,
  shrunkRest,
} from './line-model.ts';

/** Do the instruments tell one story? Compared within states, where the vessel is common to all. */
export interface InstrumentComparison {
  /** Do they differ by more than scatter in what they show at no moment? */
  readonly intercepts: FTest | null;
  /** Do they differ by more than scatter in tangent per moment: one scale, length or span wrong? */
  readonly slopes: FTest | null;
  /** Each instrument against all others together; null where it cannot be told. */
  readonly ownSlope: readonly (FTest | null)[];
  /** Each instrument on its own line; null for fewer than three states or a single moment. */
  readonly alone: readonly (StraightLine | null)[];
}

export function compareInstruments(readings: LineReadings): InstrumentComparison {
  const rows = lineRows(readings);
  const intercepts = interceptColumns(rows);
  const slopeOf = (wanted: number): Column => {
    return (state, instrument) => (instrument === wanted ? rows.x[state]! : 0);
  };
  const slopes = intercepts.map((_, j) => slopeOf(j));
  return {
    intercepts: withinTest(rows, [], intercepts),
    slopes: withinTest(rows, intercepts, slopes),
    ownSlope: slopes.map((column) => withinTest(rows, intercepts, [column])),
    alone: intercepts.map((_, j) => lineAlone(readings, j)),
  };
}

/** What `added` columns explain beyond `given` ones within states, against what both leave. */
function withinTest(
  rows: LineRows,
  given: readonly Column[],
  added: readonly Column[],
): FTest | null {
  const before = shrunkRest(rows, given, Number.POSITIVE_INFINITY);
  const after = shrunkRest(rows, [...given, ...added], Number.POSITIVE_INFINITY);
  const upperDof = after.rank - before.rank;
  const lowerDof = rows.rows.length - rows.states - after.rank;
  if (upperDof < 1 || lowerDof < 1 || after.rest === 0) return null;
  const f = (before.rest - after.rest) / upperDof / (after.rest / lowerDof);
  return fTest(f, upperDof, lowerDof);
}

function lineAlone(readings: LineReadings, instrument: number): StraightLine | null {
  const read = readings.moments.flatMap((moment, state) => {
    const tangent = readings.tangents[state]![instrument]!;
    return tangent === null ? [] : [{ moment, tangent }];
  });
  const moments = read.map((one) => one.moment);
  if (read.length < 3 || moments.every((moment) => moment === moments[0])) return null;
  return straightLine(
    moments,
    read.map((one) => one.tangent),
  );
}
