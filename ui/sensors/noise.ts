/**
 * Noise of an instrument without the vessel's own slow motion: root mean square of second
 * differences over the root of six, which is one standard deviation where samples are independent.
 * For the eye only; no reading rests on it.
 */
export function noiseDeg(heelDeg: readonly (number | null)[]): number | null {
  let squares = 0;
  let count = 0;
  for (let k = 2; k < heelDeg.length; k += 1) {
    const [a, b, c] = [heelDeg[k - 2], heelDeg[k - 1], heelDeg[k]];
    if (a == null || b == null || c == null) continue;
    squares += (a - 2 * b + c) ** 2;
    count += 1;
  }
  return count < 20 ? null : Math.sqrt(squares / count / 6);
}
