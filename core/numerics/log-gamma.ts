/**
 * Natural logarithm of the gamma function for x > 0, and of the beta function, without the
 * cancellation that large arguments bring. Stirling's series with its Bernoulli terms
 * (Abramowitz & Stegun 6.1.40, 6.1.41), reached from below by the recurrence.
 */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156];
const LEAST_FOR_SERIES = 12;
const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);

/** What Stirling's leading terms leave: ln G(x) - [(x - 1/2) ln x - x + ln(2 pi)/2], x >= 12. */
export function stirlingRemainder(x: number): number {
  const inverseSquare = 1 / (x * x);
  let sum = 0;
  for (let k = STIRLING.length - 1; k >= 0; k--) sum = sum * inverseSquare + STIRLING[k]!;
  return sum / x;
}

export function logGamma(x: number): number {
  let product = 1;
  let raised = x;
  while (raised < LEAST_FOR_SERIES) {
    product *= raised;
    raised += 1;
  }
  const large =
    (raised - 0.5) * Math.log(raised) - raised + HALF_LOG_TWO_PI + stirlingRemainder(raised);
  return large - Math.log(product);
}

/** ln B(a, b), a and b > 0. */
export function logBeta(a: number, b: number): number {
  const small = Math.min(a, b);
  const large = Math.max(a, b);
  if (large < LEAST_FOR_SERIES) return logGamma(a) + logGamma(b) - logGamma(a + b);
  const sum = small + large;
  // ln G(large) - ln G(small + large), its two large halves cancelled by hand
  const difference =
    -(large - 0.5) * Math.log1p(small / large) -
    small * Math.log(sum) +
    small +
    stirlingRemainder(large) -
    stirlingRemainder(sum);
  return logGamma(small) + difference;
}
