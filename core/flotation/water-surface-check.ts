import { leastSquares } from '../numerics/least-squares.ts';
import { studentTBeyond } from '../numerics/student-t.ts';
import type { Advice } from '../quantity/advice.ts';
import { degreesFromRadians } from '../quantity/angle.ts';
import type { WaterLevel } from './water-level.ts';
import type { WaterSurfaceFit } from './water-surface.ts';

/** IS Code 8.4.1.1: at least five freeboards, about equally spaced, on each side. */
export const LEAST_FREEBOARDS_A_SIDE = 5;
/** US Coast Guard guideline; IS Code 8.2.2.7 (from memory). */
export const MOST_LIST_DEG = 0.5;
/** US Coast Guard guideline; class rules. Of the length between perpendiculars. */
export const MOST_TRIM_SHARE = 0.01;
/** Chance, all points together, of naming a good one; no text gives a number. Our setting. */
const OFF_PLANE_LEVEL = 0.05;
/** Of the length that the freeboards of a side may leave at one end or between two. Our setting. */
const MOST_GAP_SHARE = 1 / 3;

/** A point as the others see it. */
export interface PointCompared {
  readonly point: string;
  /** Height of the water there less that of the waterline through all others, m. */
  readonly offM: number;
  readonly t: number;
  readonly degreesOfFreedom: number;
  /** Of so much by chance at one of all points (Student's t, Bonferroni). */
  readonly probability: number;
  readonly bad: boolean;
}

/**
 * Each point against the waterline through the others: its residual, studentised without itself, or
 * by what one reading is stated to.
 * Empty where one point left out leaves nothing over to judge by.
 */
export function comparePoints(fit: WaterSurfaceFit): PointCompared[] {
  const left = fit.degreesOfFreedom - 1;
  if (left < 1) return [];
  const rest = fit.residualsM.reduce((sum, one) => sum + one * one, 0);
  const rounding = 1e-9;
  // A stated reading that the scatter does not contradict: others that happen to agree better than
  // anybody reads then make no reading bad.
  const isStated = !Number.isFinite(fit.readingDegreesOfFreedom);
  const freedom = isStated ? Number.POSITIVE_INFINITY : left;
  return fit.levels.flatMap((level, i) => {
    const free = 1 - fit.leverages[i]!;
    if (free < rounding) return [];
    const residual = fit.residualsM[i]!;
    const without = isStated
      ? fit.readingDeviationM ** 2
      : Math.max(0, rest - residual ** 2 / free) / left;
    const t = residual / Math.max(rounding, Math.sqrt(without * free));
    const probability = Math.min(1, studentTBeyond(t, freedom) * fit.levels.length);
    return {
      point: level.point,
      offM: residual / free,
      t,
      degreesOfFreedom: freedom,
      probability,
      bad: probability < OFF_PLANE_LEVEL && Math.abs(residual) > rounding,
    };
  });
}

/** What is to be thought over about the waterline before it is used. */
export function checkWaterSurface(fit: WaterSurfaceFit): Advice[] {
  const { surface, lengthM } = fit;
  const advice: Advice[] = [...enoughPoints(fit)];
  const worst = comparePoints(fit).reduce<PointCompared | null>(
    (most, one) => (one.bad && (most === null || one.probability < most.probability) ? one : most),
    null,
  );
  if (worst !== null) {
    const { point, offM } = worst;
    advice.push({ code: 'level-off-plane', where: point, found: offM, limit: null, unit: 'm' });
  }
  if (fit.scattersMoreThanStated) {
    const found = fit.readingDeviationM;
    advice.push({ code: 'levels-scatter', where: 'all points', found, limit: null, unit: 'm' });
  }
  const between = marksLessFreeboards(fit);
  if (between !== null && between.probability < OFF_PLANE_LEVEL) {
    const where = 'marks less freeboards';
    const found = between.differenceM;
    advice.push({ code: 'marks-against-freeboards', where, found, limit: null, unit: 'm' });
  }
  const listDeg = degreesFromRadians(Math.atan(surface.heelSlope));
  if (Math.abs(listDeg) > MOST_LIST_DEG) {
    const where = listDeg > 0 ? 'starboard' : 'port';
    const found = Math.abs(listDeg);
    advice.push({ code: 'list-large', where, found, limit: MOST_LIST_DEG, unit: 'deg' });
  }
  const trimM = Math.abs(surface.trimSlope * lengthM);
  const limit = MOST_TRIM_SHARE * lengthM;
  if (trimM > limit) {
    const where = surface.trimSlope > 0 ? 'by the stern' : 'by the bow';
    advice.push({ code: 'trim-large', where, found: trimM, limit, unit: 'm' });
  }
  return advice;
}

function enoughPoints({ levels, lengthM }: WaterSurfaceFit): Advice[] {
  if (allMarksRead(levels, lengthM)) return [];
  return (['port', 'starboard'] as const).flatMap((side): Advice[] => {
    const ofSide = levels.filter((one) => one.kind === 'freeboard' && one.side === side);
    if (ofSide.length < LEAST_FREEBOARDS_A_SIDE) {
      const found = ofSide.length;
      return [
        { code: 'freeboards-few', where: side, found, limit: LEAST_FREEBOARDS_A_SIDE, unit: '' },
      ];
    }
    const gap = widestGapM(ofSide, lengthM);
    const limit = MOST_GAP_SHARE * lengthM;
    return gap > limit
      ? [{ code: 'freeboards-spread', where: side, found: gap, limit, unit: 'm' }]
      : [];
  });
}

/** Marks forward, amidships and aft on both sides serve instead (IS Code 8.4.1.1). */
function allMarksRead(levels: readonly WaterLevel[], lengthM: number): boolean {
  return (['port', 'starboard'] as const).every((side) => {
    const marks = levels.filter((one) => one.kind === 'draught-mark' && one.side === side);
    const within = (from: number, to: number) =>
      marks.some((one) => one.xM >= from * lengthM && one.xM <= to * lengthM);
    return within(-0.2, 0.3) && within(0.3, 0.7) && within(0.7, 1.2);
  });
}

function widestGapM(levels: readonly WaterLevel[], lengthM: number): number {
  const x = levels.map((one) => one.xM).sort((left, right) => left - right);
  return Math.max(x[0]!, lengthM - x[x.length - 1]!, ...x.slice(1).map((one, k) => one - x[k]!));
}

/** Do marks and freeboards lie on one waterline? Null where only one kind was read, or too few. */
function marksLessFreeboards(
  fit: WaterSurfaceFit,
): { differenceM: number; probability: number } | null {
  const { levels, residualsM, lengthM, sagFitted } = fit;
  const freedom = fit.degreesOfFreedom - 1;
  const kinds = new Set(levels.map((one) => one.kind)).size;
  if (kinds < 2 || freedom < 1) return null;
  const design = levels.map((one) => {
    const from = one.xM - lengthM / 2;
    const u = from / (lengthM / 2);
    const sag = sagFitted ? [1 - u * u] : [];
    return [1, from, one.yM, ...sag, one.kind === 'draught-mark' ? 1 : 0];
  });
  const { coefficients, cofactor, rest } = leastSquares(design, residualsM);
  const last = coefficients.length - 1;
  const differenceM = coefficients[last]!;
  const standardError = Math.sqrt((rest / freedom) * cofactor[last]![last]!);
  const t = differenceM / Math.max(1e-12, standardError);
  return {
    differenceM,
    probability: Math.abs(differenceM) < 1e-9 ? 1 : studentTBeyond(t, freedom),
  };
}
