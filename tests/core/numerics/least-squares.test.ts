import fc from 'fast-check';
import { expect, test } from 'vitest';
import { leastSquares, lineThroughOrigin, straightLine } from '#core/numerics/least-squares.ts';

// NIST Statistical Reference Datasets, linear regression: Norris, certified values as printed there.
const NORRIS =
  '.2:.1 337.4:338.8 118.2:118.1 884.6:888.0 10.1:9.2 226.5:228.1 666.3:668.5 996.3:998.5 ' +
  '448.6:449.1 777.0:778.9 558.2:559.2 .4:.3 .6:.1 775.5:778.1 666.9:668.8 338.0:339.3 ' +
  '447.5:448.9 11.6:10.8 556.0:557.7 228.1:228.3 995.8:998.0 887.6:888.8 120.2:119.6 .3:.3 ' +
  '.3:.6 556.8:557.6 339.1:339.3 887.2:888.0 999.0:998.5 779.0:778.9 11.1:10.2 118.3:117.6 ' +
  '229.2:228.9 669.1:668.4 448.9:449.2 .5:.2';
const norris = NORRIS.split(' ').map((pair) => pair.split(':').map(Number) as [number, number]);
const norrisX = norris.map(([x]) => x);
const norrisY = norris.map(([, y]) => y);

function digits(found: number, certified: number): number {
  return found === certified ? 16 : -Math.log10(Math.abs(found / certified - 1));
}

test('Norris: the certified values to twelve digits and more', () => {
  const line = straightLine(norrisX, norrisY);
  expect(digits(line.intercept, -0.262323073774029)).toBeGreaterThan(12);
  expect(digits(line.slope, 1.00211681802045)).toBeGreaterThan(14);
  expect(digits(line.interceptUncertainty, 0.232818234301152)).toBeGreaterThan(13);
  expect(digits(line.slopeUncertainty, 0.000429796848199937)).toBeGreaterThan(13);
  expect(digits(line.residualDeviation, 0.884796396144373)).toBeGreaterThan(13);
  expect(digits(line.rSquared, 0.999993745883712)).toBeGreaterThan(14);
});

// The intercept stands 400 of its units away from the middle of x, which costs a digit without centring.
test('Norris by QR gives the same', () => {
  const fit = leastSquares(
    norrisX.map((x) => [1, x]),
    norrisY,
  );
  expect(digits(fit.coefficients[0]!, -0.262323073774029)).toBeGreaterThan(11);
  expect(digits(fit.coefficients[1]!, 1.00211681802045)).toBeGreaterThan(13);
  const deviation = Math.sqrt(fit.rest / 34);
  expect(digits(deviation, 0.884796396144373)).toBeGreaterThan(13);
  expect(digits(deviation * Math.sqrt(fit.cofactor[0]![0]!), 0.232818234301152)).toBeGreaterThan(
    13,
  );
});

test('NoInt1: through the origin, the certified values', () => {
  const x = Array.from({ length: 11 }, (_, i) => 60 + i);
  const line = lineThroughOrigin(
    x,
    x.map((value) => value + 70),
  );
  expect(digits(line.slope, 2.07438016528926)).toBeGreaterThan(14);
  expect(digits(line.slopeUncertainty, 0.0165289256198347)).toBeGreaterThan(13);
  expect(digits(line.residualDeviation, 3.56753034006338)).toBeGreaterThan(13);
});

test('a perfect line of slope two over epoch milliseconds has slope two', () => {
  const start = Date.UTC(2026, 10, 25, 9, 0, 0);
  const x = Array.from({ length: 9 }, (_, i) => start + 100 * i);
  const line = straightLine(
    x,
    x.map((value) => 2 * value + 1),
  );
  expect(line.slope).toBe(2);
});

test('a shift of x moves the intercept and leaves the slope', () => {
  fc.assert(
    fc.property(fc.integer({ min: -1e6, max: 1e6 }), (shift) => {
      const x = [0, 1, 2, 3, 4];
      const y = [0.5, 1.25, 3.5, 3, 5];
      const plain = straightLine(x, y);
      const moved = straightLine(
        x.map((value) => value + shift),
        y,
      );
      expect(moved.slope).toBeCloseTo(plain.slope, 10);
      expect(moved.slopeUncertainty).toBeCloseTo(plain.slopeUncertainty, 10);
    }),
  );
});

test('what determines no line is refused with its code', () => {
  expect(() => straightLine([1, 1, 1], [1, 2, 3])).toThrow(/line-not-determined/);
  expect(() => straightLine([1, 2], [1, 2])).toThrow(/input-too-few/);
  expect(() => straightLine([1, 2, 3], [1, 2])).toThrow(/input-unequal-length/);
  expect(() => straightLine([1, 2, Number.NaN], [1, 2, 3])).toThrow(/input-not-finite/);
  const twice = [1, 2, 3].map((value) => [value, 2 * value]);
  expect(() => leastSquares(twice, [1, 2, 3])).toThrow(/line-not-determined/);
});
