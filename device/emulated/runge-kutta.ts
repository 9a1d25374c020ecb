/**
 * One step of the classical fourth-order method of Runge and Kutta for two first-order equations.
 * `slopes` gets the two values and the share (0, 1/2, 1) of the step passed.
 */
export function integrateRungeKutta(
  values: readonly [number, number],
  stepS: number,
  slopes: (first: number, second: number, share: number) => readonly [number, number],
): [number, number] {
  const [first, second] = values;
  const [a1, a2] = slopes(first, second, 0);
  const [b1, b2] = slopes(first + (a1 * stepS) / 2, second + (a2 * stepS) / 2, 0.5);
  const [c1, c2] = slopes(first + (b1 * stepS) / 2, second + (b2 * stepS) / 2, 0.5);
  const [d1, d2] = slopes(first + c1 * stepS, second + c2 * stepS, 1);
  return [
    first + (stepS / 6) * (a1 + 2 * b1 + 2 * c1 + d1),
    second + (stepS / 6) * (a2 + 2 * b2 + 2 * c2 + d2),
  ];
}
