import { rollStep } from '#core/steadiness/roll-model.ts';
import type { EstimatorCell } from './estimator-cells.ts';
import { RECORD_STEP_S } from './rolling-record.ts';

const WIDE_DEG2 = 1e4;

/**
 * Generalised least squares of the mean heel with the true numbers of a model cell, on every 10 Hz
 * sample: a Kalman filter of roll, rate and mean, the mean without any prior and, where a ringing
 * was let go, the first roll too. Returns the estimate after each of the given numbers of samples.
 * No honest method does better on these records.
 */
export function boundOf(
  cell: EstimatorCell,
  readDeg: Float64Array,
  after: readonly number[],
): number[] {
  const { a11, a12, a21, a22, q11, q12, q22 } = rollStep(cell, RECORD_STEP_S);
  const first = cell.ringingDeg > 0 ? WIDE_DEG2 : cell.rollDeg ** 2;
  let [roll, rate, mean] = [0, 0, readDeg[0]!];
  // Covariance, upper triangle: roll-roll, roll-rate, roll-mean, rate-rate, rate-mean, mean-mean.
  let [prr, prs, prm, pss, psm, pmm] = [first, 0, 0, first, 0, WIDE_DEG2];
  const found: number[] = [];
  const noise2 = cell.noiseDeg ** 2;
  for (let k = 0; k < readDeg.length; k++) {
    [roll, rate] = [a11 * roll + a12 * rate, a21 * roll + a22 * rate];
    const [rr, rs, ss, rm, sm] = [prr, prs, pss, prm, psm];
    prr = a11 * a11 * rr + 2 * a11 * a12 * rs + a12 * a12 * ss + q11;
    prs = a11 * a21 * rr + (a11 * a22 + a12 * a21) * rs + a12 * a22 * ss + q12;
    pss = a21 * a21 * rr + 2 * a21 * a22 * rs + a22 * a22 * ss + q22;
    prm = a11 * rm + a12 * sm;
    psm = a21 * rm + a22 * sm;
    const [gr, gs, gm] = [prr + prm, prs + psm, prm + pmm];
    const variance = gr + gm + noise2;
    const off = (readDeg[k]! - roll - mean) / variance;
    roll += gr * off;
    rate += gs * off;
    mean += gm * off;
    prr -= (gr * gr) / variance;
    prs -= (gr * gs) / variance;
    prm -= (gr * gm) / variance;
    pss -= (gs * gs) / variance;
    psm -= (gs * gm) / variance;
    pmm -= (gm * gm) / variance;
    if (after.includes(k + 1)) found.push(mean);
  }
  return found;
}
