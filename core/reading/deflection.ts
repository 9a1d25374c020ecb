import { Fault } from '../fault/fault.ts';
import { degreesFromRadians } from '../quantity/angle.ts';

/** What a person read at a pendulum's batten or a U-tube. Starboard positive, millimetres. */
export interface HandRead {
  readonly kind: 'pendulum' | 'u-tube';
  /** Pendulum: pivot to batten. U-tube: span between the legs. */
  readonly lengthMm: number;
  /** Successive extremes in order; of a U-tube the level difference, starboard less port. */
  readonly extremesMm: readonly number[];
  /** Distance of the scale's marks; half a mark is what a reader can be off. */
  readonly divisionMm?: number;
}

export interface Deflection {
  /** Where it would hang at rest. */
  readonly restMm: number;
  readonly restStandardErrorMm: number;
  readonly degreesOfFreedom: number;
  readonly heelDeg: number;
  readonly standardErrorDeg: number;
}

const MILLIMETRE_SCALE = 1;
const MOST_HEEL_DEG = 45;
/** Fewer extremes give a rest point but no scatter of it. */
const FEWEST_EXTREMES = 3;

/**
 * The rest point by the mean of successive extremes: each three in a row give
 * (first + 2 second + third) / 4, in which swing and its decay cancel to first order; the rest
 * point is the mean of those (common practice in weighing and inclining, no single source).
 * Deflection over length is the tangent of the heel; level difference over span likewise.
 *
 * The standard error joins the scatter of the single rest points (neighbours share two of three
 * readings: they are counted as independent only for each third one) and the scale: a reading is
 * off by up to half a division, evenly. A single reading stands for a rest point by itself.
 *
 * Throws `input-not-finite`, `input-range` (length, division or heel that cannot be),
 * `input-too-few` (none, or two: which of a swing's ends would it be).
 */
export function deflectionFromHandRead(read: HandRead): Deflection {
  const { kind, lengthMm, extremesMm, divisionMm = MILLIMETRE_SCALE } = read;
  for (const value of [lengthMm, divisionMm, ...extremesMm]) {
    if (!Number.isFinite(value)) throw new Fault('input-not-finite', kind, String(value));
  }
  if (!(lengthMm > 0)) throw new Fault('input-range', `${kind} length`, `${lengthMm} mm`);
  if (!(divisionMm > 0))
    throw new Fault('input-range', `${kind} scale division`, `${divisionMm} mm`);
  if (extremesMm.length === 0 || extremesMm.length === FEWEST_EXTREMES - 1) {
    throw new Fault('input-too-few', `${kind} extremes`, `${extremesMm.length}`);
  }
  const rests = extremesMm.length === 1 ? [...extremesMm] : restPoints(extremesMm);
  const restMm = rests.reduce((sum, rest) => sum + rest, 0) / rests.length;
  const scatter = scatterOf(rests, restMm);
  const scaleMm = divisionMm / Math.sqrt(12 * Math.max(1, extremesMm.length / 2));
  const restStandardErrorMm = Math.hypot(scatter.standardErrorMm, scaleMm);
  const tangent = restMm / lengthMm;
  const heelDeg = degreesFromRadians(Math.atan(tangent));
  if (Math.abs(heelDeg) > MOST_HEEL_DEG) {
    throw new Fault('input-range', `${kind} deflection`, `${restMm} mm on ${lengthMm} mm`);
  }
  const perMm = degreesFromRadians(1 / (lengthMm * (1 + tangent ** 2)));
  return {
    restMm,
    restStandardErrorMm,
    degreesOfFreedom: degreesOfFreedomOf(scatter, restStandardErrorMm),
    heelDeg,
    standardErrorDeg: perMm * restStandardErrorMm,
  };
}

function restPoints(extremesMm: readonly number[]): number[] {
  const rests: number[] = [];
  for (let k = 2; k < extremesMm.length; k++) {
    rests.push((extremesMm[k - 2]! + 2 * extremesMm[k - 1]! + extremesMm[k]!) / 4);
  }
  return rests;
}

interface Scatter {
  readonly standardErrorMm: number;
  /** Of the scatter alone; 0 where there is none to speak of. */
  readonly degreesOfFreedom: number;
}

function scatterOf(rests: readonly number[], restMm: number): Scatter {
  if (rests.length < 2) return { standardErrorMm: 0, degreesOfFreedom: 0 };
  const variance = rests.reduce((sum, rest) => sum + (rest - restMm) ** 2, 0) / (rests.length - 1);
  const independent = Math.max(1, rests.length / 3);
  return {
    standardErrorMm: Math.sqrt(variance / independent),
    degreesOfFreedom: Math.max(1, Math.floor(independent) - 1),
  };
}

/** Welch and Satterthwaite: the scale's part is known, the scatter's is counted. */
function degreesOfFreedomOf(scatter: Scatter, togetherMm: number): number {
  if (scatter.degreesOfFreedom === 0 || scatter.standardErrorMm === 0) {
    return Number.POSITIVE_INFINITY;
  }
  return scatter.degreesOfFreedom * (togetherMm / scatter.standardErrorMm) ** 4;
}
