import { type FTest, fTest, type LineFit, lineColumns } from './line.ts';
import {
  type Column,
  interceptColumns,
  type LineReadings,
  lineRows,
  shrunkFit,
  shrunkRest,
} from './line-model.ts';

/** The line with something more in it that is the same for all instruments of a state. */
export interface StateTest {
  /** What the addition explains against what the states then still leave. */
  readonly test: FTest;
  /** Size of each addition, tangent per unit of its column. */
  readonly coefficients: readonly number[];
  /** Slope beside it. */
  readonly slope: number;
}

/**
 * Tests state-level columns added to a fitted line, the states weighed as in that fit. Null when
 * the columns follow from the line's own, when nothing would be left over, or when the states lie
 * on the line so closely that only rounding is left to judge by.
 */
export function testStateColumns(
  readings: LineReadings,
  fit: LineFit,
  added: readonly (readonly number[])[],
): StateTest | null {
  const lowerDof = fit.statesDof - added.length;
  if (lowerDof < 1) return null;
  const rows = lineRows(readings);
  const extra = added.map(
    (values): Column =>
      (state) =>
        values[state]!,
  );
  const given = lineColumns(rows);
  const ratio = fit.varianceRatio;
  const within = shrunkRest(rows, interceptColumns(rows), Number.POSITIVE_INFINITY).rest;
  const before = shrunkRest(rows, given, ratio);
  const after = shrunkRest(rows, [...given, ...extra], ratio);
  if (after.rank < given.length + added.length) return null;
  const scale = rows.rows.reduce((sum, row) => sum + row.tangent ** 2, 0);
  if (before.rest - within <= 1e-20 * scale || after.rest - within <= 0) return null;
  const f = (before.rest - after.rest) / added.length / ((after.rest - within) / lowerDof);
  const { coefficients } = shrunkFit(rows, [...given, ...extra], ratio);
  return {
    test: fTest(Math.max(0, f), added.length, lowerDof),
    coefficients: coefficients.slice(given.length),
    slope: coefficients[rows.instruments]! / rows.momentScale,
  };
}
