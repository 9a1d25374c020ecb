import { deflectionFromHandRead } from '#core/reading/deflection.ts';

/** The pendulum of the comparison. */
const LENGTH_MM = 3000;
const MARK_MM = 1;

/**
 * What a person reads off a 3 m pendulum over a millimetre scale in this stretch: each turning
 * point to the nearest millimetre, a turn that goes back by less than a mark being no turn, and
 * the mean of successive extremes of them. Too few turns: the last position, once.
 */
export function pendulumHeelDeg(heelDeg: Float64Array): number {
  const extremesMm = turningPointsMm(heelDeg);
  const lastMm = readMm(heelDeg[heelDeg.length - 1]!);
  return deflectionFromHandRead({
    kind: 'pendulum',
    lengthMm: LENGTH_MM,
    extremesMm: extremesMm.length >= 3 ? extremesMm : [lastMm],
    divisionMm: MARK_MM,
  }).heelDeg;
}

const placeMm = (heelDeg: number) => LENGTH_MM * Math.tan((heelDeg * Math.PI) / 180);
const readMm = (heelDeg: number) => Math.round(placeMm(heelDeg) / MARK_MM) * MARK_MM;

function turningPointsMm(heelDeg: Float64Array): number[] {
  const turns: number[] = [];
  let low = heelDeg[0]!;
  let high = low;
  let rising: boolean | null = null;
  const enough = (to: number, from: number) => placeMm(to) - placeMm(from) >= MARK_MM;
  for (const heel of heelDeg) {
    high = Math.max(high, heel);
    low = Math.min(low, heel);
    if (rising !== false && enough(high, heel)) {
      if (rising === true) turns.push(readMm(high));
      rising = false;
      low = heel;
    } else if (rising !== true && enough(heel, low)) {
      if (rising === false) turns.push(readMm(low));
      rising = true;
      high = heel;
    }
  }
  return turns;
}

export function plainMean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

export function plainMedian(values: Float64Array): number {
  const sorted = values.slice().sort();
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
