import { Fault } from '../fault/fault.ts';
import { logBeta } from './log-gamma.ts';

const TINY = 1e-300;
const MOST_TERMS = 100_000;

/**
 * Regularised incomplete beta function I_x(a, b), a and b > 0. Takes x and its complement
 * `oneLessX` apart, so that neither loses digits near the ends; both tails come back for the
 * same reason. Continued fraction (Abramowitz & Stegun 26.5.8) by the method of Lentz.
 */
export function incompleteBeta(
  a: number,
  b: number,
  x: number,
  oneLessX: number,
): { lower: number; upper: number } {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (oneLessX <= 0) return { lower: 1, upper: 0 };
  const logX = x < 0.5 ? Math.log(x) : Math.log1p(-oneLessX);
  const logY = oneLessX < 0.5 ? Math.log(oneLessX) : Math.log1p(-x);
  const front = Math.exp(a * logX + b * logY - logBeta(a, b));
  if (x < (a + 1) / (a + b + 2)) {
    const lower = (front * betaFraction(a, b, x)) / a;
    return { lower, upper: 1 - lower };
  }
  const upper = (front * betaFraction(b, a, oneLessX)) / b;
  return { lower: 1 - upper, upper };
}

function betaFraction(a: number, b: number, x: number): number {
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= MOST_TERMS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const factor = d * c;
    fraction *= factor;
    if (Math.abs(factor - 1) < 1e-16) return fraction;
  }
  throw new Fault('no-convergence', 'incompleteBeta', `a ${a}, b ${b}, x ${x}`);
}

function away(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}
