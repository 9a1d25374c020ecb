/** Points and weights of Gauss and Legendre on 0 to 1, by the number of points. */
export interface GaussRule {
  readonly at: readonly number[];
  readonly weight: readonly number[];
}

/**
 * The rule of n points, by Newton's method on the Legendre polynomial (Abramowitz & Stegun,
 * Handbook of Mathematical Functions, 1964, 25.4.29 and 22.7.10).
 */
export function gaussRule(n: number): GaussRule {
  const at: number[] = [];
  const weight: number[] = [];
  for (let i = 0; i < n; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let count = 0; count < 50; count++) {
      let [before, here] = [1, x];
      for (let k = 2; k <= n; k++) {
        [before, here] = [here, ((2 * k - 1) * x * here - (k - 1) * before) / k];
      }
      slope = n === 1 ? 1 : (n * (x * here - before)) / (x * x - 1);
      const step = here / slope;
      x -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    at.push((1 - x) / 2);
    weight.push(1 / ((1 - x * x) * slope * slope));
  }
  return { at, weight };
}
