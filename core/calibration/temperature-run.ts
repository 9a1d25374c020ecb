import { Fault } from '../fault/fault.ts';
import { leastSquares } from '../numerics/least-squares.ts';
import { studentTBeyond } from '../numerics/student-t.ts';
import { checkAllFinite, checkEqualLength } from '../quantity/check.ts';

export interface TemperatureRun {
  /** Temperature the polynomial is opened at: the mean of the run, degrees Celsius. */
  readonly aboutC: number;
  /** Zero there, in the unit of the indication, and its change a kelvin and a kelvin squared. */
  readonly zero: number;
  readonly perK: number;
  readonly perKUncertainty: number;
  /** 0 where the square is no more than chance (two-sided, 1 %). */
  readonly perK2: number;
  readonly leftOver: number;
  readonly fromC: number;
  readonly toC: number;
}

const LEAST_RANGE_K = 3;
const LEAST_POINTS = 5;
/** A square is taken in when it would come by chance less often than this. */
const SQUARE_CHANCE = 0.01;

/**
 * How an instrument on a fixed plate drifts with its own warmth: zero + perK (T - T0)
 * + perK2 (T - T0)^2 by least squares. The temperatures may be those the chip tells, whose
 * offset cancels. Faults: `input-too-few` under five points or three kelvin of range.
 */
export function fitTemperatureRun(
  temperatureC: readonly number[],
  indicated: readonly number[],
): TemperatureRun {
  checkEqualLength(temperatureC, indicated, 'temperature run');
  checkAllFinite(temperatureC, 'temperature');
  checkAllFinite(indicated, 'indicated');
  const count = temperatureC.length;
  const fromC = Math.min(...temperatureC);
  const toC = Math.max(...temperatureC);
  if (count < LEAST_POINTS || toC - fromC < LEAST_RANGE_K) {
    throw new Fault('input-too-few', 'temperature run', `${count} points over ${toC - fromC} K`);
  }
  const aboutC = temperatureC.reduce((sum, one) => sum + one, 0) / count;
  const rise = temperatureC.map((one) => one - aboutC);
  const fit = (powers: number) =>
    leastSquares(
      rise.map((k) => Array.from({ length: powers }, (_, power) => k ** power)),
      indicated,
    );
  const bent = fit(3);
  const bentVariance = bent.rest / (count - 3);
  const bentUncertainty = Math.sqrt(bentVariance * bent.cofactor[2]![2]!);
  const square = bent.coefficients[2]!;
  const bends =
    square !== 0 &&
    (bentUncertainty === 0 ||
      2 * studentTBeyond(Math.abs(square) / bentUncertainty, count - 3) < SQUARE_CHANCE);
  const taken = bends ? bent : fit(2);
  const variance = taken.rest / (count - taken.coefficients.length);
  return {
    aboutC,
    zero: taken.coefficients[0]!,
    perK: taken.coefficients[1]!,
    perKUncertainty: Math.sqrt(variance * taken.cofactor[1]![1]!),
    perK2: bends ? square : 0,
    leftOver: Math.sqrt(variance),
    fromC,
    toC,
  };
}
