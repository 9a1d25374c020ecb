import { Fault } from '../fault/fault.ts';
import { chiSquaredBeyond } from '../numerics/chi-squared.ts';
import { type LeastSquares, leastSquares } from '../numerics/least-squares.ts';
import { checkPositive } from '../quantity/check.ts';
import type { WaterLevel } from './water-level.ts';

/**
 * The water's surface in ship axes: height over the baseline
 * z = middle - trimSlope (x - L/2) + heelSlope y + sag (1 - u^2), u = (x - L/2) / (L/2).
 */
export interface WaterSurface {
  /** On the chord from the after to the forward perpendicular, at half length, on the centreline. */
  readonly middleM: number;
  /** Tangent of the trim, positive by the stern. */
  readonly trimSlope: number;
  /** Tangent of the heel, starboard down positive. */
  readonly heelSlope: number;
  /** Middle of the hull below the chord of its ends; a hogged hull has it below zero. */
  readonly sagM: number;
}

export const WATER_SURFACE_PARTS = ['middleM', 'trimSlope', 'heelSlope', 'sagM'] as const;

export interface WaterSurfaceFit {
  readonly surface: WaterSurface;
  readonly lengthM: number;
  readonly levels: readonly WaterLevel[];
  /** Height seen less fitted, m, by level. */
  readonly residualsM: readonly number[];
  readonly degreesOfFreedom: number;
  /** Standard deviation of one reading that stands behind the covariance, and its freedom. */
  readonly readingDeviationM: number;
  readonly readingDegreesOfFreedom: number;
  /** Do the readings scatter more than stated? Then the scatter is used. */
  readonly scattersMoreThanStated: boolean;
  readonly sagFitted: boolean;
  /** Of the four parts in the order of WATER_SURFACE_PARTS, from the readings' scatter. */
  readonly covariance: readonly (readonly number[])[];
  /** What 1 m added to all freeboards' heights, and to all marks', does to each part. */
  readonly datum: { readonly freeboards: readonly number[]; readonly marks: readonly number[] };
  /** Diagonal of the hat matrix, by level. */
  readonly leverages: readonly number[];
}

/** Stated readings are believed until a scatter as large would come by less chance. Our setting. */
const SCATTER_LEVEL = 0.05;
const ROUNDS = 4;

/**
 * The waterline through the levels by least squares, a plane with hog or sag: sag is fitted where
 * there are points on at least three stations and two freedoms are left over with it.
 * `statedM`: standard uncertainty of one reading as stated, or null; without it the scatter of the
 * readings speaks. Freeboards are plumb, so the slope of the water enters them and the fit is
 * repeated. Throws `input-too-few`, `line-not-determined`.
 */
export function fitWaterSurface(
  levels: readonly WaterLevel[],
  lengthM: number,
  statedM: number | null,
): WaterSurfaceFit {
  checkPositive(lengthM, 'length between perpendiculars, m');
  const stations = new Set(levels.map((one) => one.xM)).size;
  if (levels.length < 3) {
    throw new Fault('input-too-few', 'freeboards and marks', `${levels.length}, at least 3`);
  }
  const sagFitted = stations >= 3 && levels.length >= 6;
  const design = levels.map((one) => row(one, lengthM, sagFitted));
  let heights = levels.map((one) => one.heightM);
  let fit = leastSquares(design, heights);
  for (let round = 0; round < ROUNDS; round++) {
    const [, trim = 0, heel = 0] = fit.coefficients;
    const longer = Math.sqrt(1 + trim ** 2 + heel ** 2) - 1;
    heights = levels.map((one) => one.heightM - one.plumbM * longer);
    fit = leastSquares(design, heights);
  }
  const degreesOfFreedom = levels.length - fit.coefficients.length;
  const scatter = scatterOf(fit.rest, degreesOfFreedom, statedM);
  const variance = scatter.readingDeviationM ** 2;
  const whole = (k: number, i: number) => fit.cofactor[k]?.[i] ?? 0;
  const [middleM = 0, trimSlope = 0, heelSlope = 0, sagM = 0] = fit.coefficients;
  return {
    surface: { middleM, trimSlope, heelSlope, sagM },
    lengthM,
    levels,
    residualsM: fit.residuals,
    degreesOfFreedom,
    ...scatter,
    sagFitted,
    covariance: WATER_SURFACE_PARTS.map((_, k) =>
      WATER_SURFACE_PARTS.map((_part, i) => variance * whole(k, i)),
    ),
    datum: {
      freeboards: shiftOf(levels, design, 'freeboard'),
      marks: shiftOf(levels, design, 'draught-mark'),
    },
    leverages: leveragesOf(design, fit),
  };
}

function row(level: WaterLevel, lengthM: number, sagFitted: boolean): number[] {
  const from = level.xM - lengthM / 2;
  const u = from / (lengthM / 2);
  return [1, -from, level.yM, ...(sagFitted ? [1 - u * u] : [])];
}

function scatterOf(
  rest: number,
  degreesOfFreedom: number,
  statedM: number | null,
): Pick<
  WaterSurfaceFit,
  'readingDeviationM' | 'readingDegreesOfFreedom' | 'scattersMoreThanStated'
> {
  if (statedM === null) {
    if (degreesOfFreedom < 1) {
      throw new Fault(
        'input-too-few',
        'freeboards and marks',
        'none is left over to show their scatter, and none was stated',
      );
    }
    return {
      readingDeviationM: Math.sqrt(rest / degreesOfFreedom),
      readingDegreesOfFreedom: degreesOfFreedom,
      scattersMoreThanStated: false,
    };
  }
  checkPositive(statedM, 'uncertainty of a reading, m');
  const beyond =
    degreesOfFreedom >= 1 &&
    chiSquaredBeyond(rest / statedM ** 2, degreesOfFreedom) < SCATTER_LEVEL;
  return {
    readingDeviationM: beyond ? Math.sqrt(rest / degreesOfFreedom) : statedM,
    readingDegreesOfFreedom: beyond ? degreesOfFreedom : Number.POSITIVE_INFINITY,
    scattersMoreThanStated: beyond,
  };
}

function shiftOf(
  levels: readonly WaterLevel[],
  design: readonly number[][],
  kind: WaterLevel['kind'],
): number[] {
  const shifted = levels.map((one) => (one.kind === kind ? 1 : 0));
  const { coefficients } = leastSquares(design, shifted);
  return WATER_SURFACE_PARTS.map((_, k) => coefficients[k] ?? 0);
}

function leveragesOf(design: readonly number[][], { cofactor }: LeastSquares): number[] {
  return design.map((one) =>
    one.reduce(
      (sum, left, k) =>
        sum + one.reduce((part, right, i) => part + left * right * cofactor[k]![i]!, 0),
      0,
    ),
  );
}

/** Height of the water over the baseline at a place of the hull. */
export function waterHeightM(
  { middleM, trimSlope, heelSlope, sagM }: WaterSurface,
  lengthM: number,
  xM: number,
  yM: number,
): number {
  const from = xM - lengthM / 2;
  const u = from / (lengthM / 2);
  return middleM - trimSlope * from + heelSlope * yM + sagM * (1 - u * u);
}
