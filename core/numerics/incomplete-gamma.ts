import { Fault } from '../fault/fault.ts';
import { logGamma, stirlingRemainder } from './log-gamma.ts';

const TINY = 1e-300;
const MOST_TERMS = 100_000;

/**
 * Regularised incomplete gamma functions, lower P(a, x) and upper Q(a, x), a > 0. Below a + 1 by
 * series (Abramowitz & Stegun 6.5.29), above by continued fraction (6.5.31, Lentz).
 */
export function incompleteGamma(a: number, x: number): { lower: number; upper: number } {
  if (x <= 0) return { lower: 0, upper: 1 };
  const front = Math.exp(logFront(a, x));
  if (x < a + 1) {
    const lower = front * series(a, x);
    return { lower, upper: 1 - lower };
  }
  const upper = front * fraction(a, x);
  return { lower: 1 - upper, upper };
}

/** ln(x^a e^-x / G(a)), its large parts cancelled by hand when a is large. */
function logFront(a: number, x: number): number {
  if (a < 12) return a * Math.log(x) - x - logGamma(a);
  const excess = (x - a) / a;
  const relative = Math.abs(excess) < 0.5 ? logLess(excess) : Math.log(x / a) - excess;
  return a * relative + 0.5 * Math.log(a / (2 * Math.PI)) - stirlingRemainder(a);
}

/** ln(1 + u) - u. */
function logLess(u: number): number {
  if (Math.abs(u) > 0.1) return Math.log1p(u) - u;
  let power = -u * u;
  let sum = power / 2;
  for (let k = 3; k < 40; k++) {
    power *= -u;
    const term = power / k;
    sum += term;
    if (Math.abs(term) < 1e-18 * Math.abs(sum)) break;
  }
  return sum;
}

function series(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n <= MOST_TERMS; n++) {
    term *= x / (a + n);
    sum += term;
    if (term < sum * 1e-17) return sum;
  }
  throw new Fault('no-convergence', 'incompleteGamma', `a ${a}, x ${x}`);
}

function fraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let value = d;
  for (let n = 1; n <= MOST_TERMS; n++) {
    const term = -n * (n - a);
    b += 2;
    d = 1 / away(term * d + b);
    c = away(b + term / c);
    const factor = d * c;
    value *= factor;
    if (Math.abs(factor - 1) < 1e-16) return value;
  }
  throw new Fault('no-convergence', 'incompleteGamma', `a ${a}, x ${x}`);
}

function away(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}
