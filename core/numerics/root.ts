import { Fault } from '../fault/fault.ts';

// Halving comes from any bracket to the least double in 2100 steps.
const MOST_STEPS = 2200;

/**
 * The root of a continuous function between two points where its sign differs, as closely as
 * doubles allow. Secant or inverse quadratic steps kept inside the bracket, halving when they do
 * not pay (the method of Brent, Algorithms for Minimization without Derivatives, 1973, ch. 4).
 */
export function bracketedRoot(f: (x: number) => number, from: number, to: number): number {
  let a = from;
  let b = to;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  // By signs: the product of two tiny numbers is nought.
  if (!(Math.sign(fa) * Math.sign(fb) < 0)) {
    throw new Fault('no-convergence', 'bracketedRoot', `no change of sign over ${from} to ${to}`);
  }
  let c = a;
  let fc = fa;
  let step = b - a;
  let stepBefore = step;
  for (let count = 0; count < MOST_STEPS; count++) {
    if (Math.sign(fb) === Math.sign(fc)) {
      c = a;
      fc = fa;
      step = b - a;
      stepBefore = step;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      [a, b, c] = [b, c, b];
      [fa, fb, fc] = [fb, fc, fb];
    }
    const tolerance = 2 * Number.EPSILON * Math.abs(b) + Number.MIN_VALUE;
    const half = (c - b) / 2;
    if (Math.abs(half) <= tolerance || fb === 0) return b;
    const tried =
      Math.abs(stepBefore) >= tolerance && Math.abs(fa) > Math.abs(fb)
        ? interpolatedStep(a, b, c, fa, fb, fc)
        : null;
    if (tried !== null && insideBracket(tried, half, tolerance, stepBefore)) {
      stepBefore = step;
      step = tried;
    } else {
      step = half;
      stepBefore = half;
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > tolerance ? step : Math.sign(half) * tolerance;
    fb = f(b);
  }
  throw new Fault('no-convergence', 'bracketedRoot', `over ${from} to ${to}`);
}

function interpolatedStep(
  a: number,
  b: number,
  c: number,
  fa: number,
  fb: number,
  fc: number,
): number {
  const s = fb / fa;
  if (a === c) return (s * (b - a)) / (1 - s);
  const q = fa / fc;
  const r = fb / fc;
  const up = s * ((c - b) * q * (q - r) - (b - a) * (r - 1));
  const down = (q - 1) * (r - 1) * (s - 1);
  return -up / down;
}

function insideBracket(step: number, half: number, tolerance: number, before: number): boolean {
  if (!Number.isFinite(step) || step * half <= 0) return false;
  const size = Math.abs(step);
  return size < 1.5 * Math.abs(half) - tolerance / 2 && size < Math.abs(before) / 2;
}
