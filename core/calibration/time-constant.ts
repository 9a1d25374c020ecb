import { Fault } from '../fault/fault.ts';
import { fitCurve } from '../numerics/gauss-newton.ts';
import { checkAllFinite, checkEqualLength } from '../quantity/check.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';

export interface TimeConstant {
  readonly timeConstantS: Uncertain;
  /** Where it came from and where it goes to, in the unit of the indication. */
  readonly from: number;
  readonly to: number;
  readonly leftOver: number;
}

const LEAST_POINTS = 8;
/** The step must stand this many times over what is left. */
const LEAST_STEP = 10;

/**
 * How slowly a water tube (or a damped instrument) follows a sudden change: an exponential
 * approach laid on the indication after it, `to + (from - to) exp(-t / constant)`. Times in
 * seconds from the change on, rising. Faults: `input-too-few` (eight points), `input-range`
 * where no step stands out of the scatter or the record ends before one time constant.
 */
export function fitTimeConstant(
  timeS: readonly number[],
  indicated: readonly number[],
): TimeConstant {
  checkEqualLength(timeS, indicated, 'step');
  checkAllFinite(timeS, 'time');
  checkAllFinite(indicated, 'indicated');
  if (timeS.length < LEAST_POINTS) {
    throw new Fault('input-too-few', 'step', `${timeS.length} points`);
  }
  const lengthS = timeS.at(-1)! - timeS[0]!;
  if (!(lengthS > 0)) throw new Fault('input-range', 'step: time', `${lengthS} s long`);
  const first = indicated[0]!;
  const last = indicated.at(-1)!;
  const guessS = timeToShare(timeS, indicated, first, last) ?? lengthS / 5;
  const step = Math.abs(last - first) || 1;
  const { numbers, residuals, slopes, rest } = fitCurve({
    seen: indicated,
    start: [last, first - last, Math.log(guessS)],
    reach: [step * 1e-4, step * 1e-4, 1e-4],
    curveOf([to, change, logConstant], curve) {
      const constant = Math.exp(logConstant!);
      timeS.forEach((t, k) => {
        curve[k] = to! + change! * Math.exp(-(t - timeS[0]!) / constant);
      });
    },
  });
  const [to, change, logConstant] = numbers as [number, number, number];
  const timeConstantS = Math.exp(logConstant);
  const freedom = residuals.length - 3;
  const leftOver = Math.sqrt(rest / freedom);
  if (Math.abs(change) < LEAST_STEP * leftOver || timeConstantS > lengthS) {
    throw new Fault(
      'input-range',
      'step',
      `a change of ${change} with ${leftOver} left over, ${timeConstantS} s in ${lengthS} s`,
    );
  }
  return {
    timeConstantS: {
      value: timeConstantS,
      standardUncertainty: timeConstantS * leftOver * deviationOfLast(slopes),
      degreesOfFreedom: freedom,
    },
    from: to + change,
    to,
    leftOver,
  };
}

/** When 1 - 1/e of the way is done. */
function timeToShare(
  timeS: readonly number[],
  indicated: readonly number[],
  first: number,
  last: number,
): number | null {
  const share = (value: number) => (value - first) / (last - first);
  const index = indicated.findIndex((value) => share(value) >= 1 - Math.exp(-1));
  return index > 0 ? timeS[index]! - timeS[0]! : null;
}

/** Root of the last diagonal of (slopes transposed times slopes) inverted, by Gram and Schmidt. */
function deviationOfLast(slopes: readonly Float64Array[]): number {
  const free = slopes.map((slope) => Float64Array.from(slope));
  const last = free.at(-1)!;
  free.slice(0, -1).forEach((slope, k) => {
    for (const other of [...free.slice(k + 1, -1), last]) {
      const share = product(other, slope) / product(slope, slope);
      other.forEach((_, i) => {
        other[i]! -= share * slope[i]!;
      });
    }
  });
  return 1 / Math.sqrt(product(last, last));
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
