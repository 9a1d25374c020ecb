import { expect, test } from 'vitest';
import { lineThroughOrigin, straightLine } from '#core/numerics/least-squares.ts';
import { studentTQuantile } from '#core/numerics/student-t.ts';
import { compareInstruments } from '#core/reduction/instrument-comparison.ts';
import { fitLine } from '#core/reduction/line.ts';
import { testStateColumns } from '#core/reduction/state-test.ts';
import { HANSEN } from '#tests/core/reduction/hansen.ts';

// Every figure below is calculated from Hansen's 24 points, apart from this program.
const fit = fitLine(HANSEN);
const compared = compareInstruments(HANSEN);

/** Agreement to the digits a figure is printed with: not more than one unit of the last. */
function agrees(found: number, printed: string): void {
  const [digits, exponent] = printed.split('e') as [string, string | undefined];
  const unit = 10 ** (Number(exponent ?? 0) - (digits.split('.')[1]?.length ?? 0));
  expect(Math.abs(found - Number(printed))).toBeLessThan(unit);
}

test('Hansen: one slope, an intercept for each pendulum', () => {
  agrees(fit.slope.value, '4.7962812017e-6');
  const rest = fit.readingResiduals.flat().reduce((sum, r) => sum! + r! * r!, 0)!;
  agrees(Math.sqrt(rest / 20), '1.77566741e-4');
});

test('Hansen: the honest uncertainty, from eight states, six degrees of freedom', () => {
  agrees(fit.slope.standardUncertainty, '2.474454e-8');
  expect(fit.slope.degreesOfFreedom).toBe(6);
  const halfWidth = studentTQuantile(0.975, 6) * fit.slope.standardUncertainty;
  agrees((100 * halfWidth) / fit.slope.value, '1.26');
});

test('Hansen: the states share an error; the pendulums differ in zero and not in scale', () => {
  agrees(fit.stateEffect!.f, '8.9706');
  expect([fit.stateEffect!.upperDof, fit.stateEffect!.lowerDof]).toEqual([6, 14]);
  const inDegrees = 180 / Math.PI;
  agrees(fit.stateDeviation! * inDegrees, '.0090');
  agrees(fit.ownDeviation! * inDegrees, '.0055');
  agrees(compared.intercepts!.f, '74.247');
  expect([compared.intercepts!.upperDof, compared.intercepts!.lowerDof]).toEqual([2, 14]);
  agrees(compared.slopes!.f, '0.2332');
  expect([compared.slopes!.upperDof, compared.slopes!.lowerDof]).toEqual([2, 12]);
});

test('Hansen: each pendulum alone', () => {
  const slopes = ['4.79810675e-6', '4.80251910e-6', '4.78821776e-6'];
  const intercepts = ['2.391834e-4', '1.566056e-4', '-3.056423e-4'];
  compared.alone.forEach((line, j) => {
    agrees(line!.slope, slopes[j]!);
    agrees(line!.intercept, intercepts[j]!);
  });
});

test('Hansen: an intercept for each side is a step of the zero after the fourth state', () => {
  const step = testStateColumns(HANSEN, fit, [[0, 0, 0, 0, 1, 1, 1, 1]])!;
  agrees(1 / step.slope, '211824');
  agrees(step.test.f, '30');
  expect([step.test.upperDof, step.test.lowerDof]).toEqual([1, 5]);
  agrees((Math.atan(Math.abs(step.coefficients[0]!)) * 180) / Math.PI, '0.0257');
});

test('Hansen: the plain line and the one through the origin, which are not used', () => {
  const x = HANSEN.moments.flatMap((moment) => [moment, moment, moment]);
  const y = HANSEN.tangents.flat() as number[];
  const plain = straightLine(x, y);
  agrees(plain.intercept, '3.0048877e-5');
  agrees(plain.slope, '4.7962812017e-6');
  agrees(1 / plain.slope, '208494.865');
  agrees(plain.residualDeviation, '3.0235682e-4');
  agrees(plain.slopeUncertainty, '2.5906111e-8');
  agrees(plain.rSquared, '.9994');
  // the book forces moment = GM displacement tan through the origin
  agrees(lineThroughOrigin(y, x).slope, '208355.652');
});

test('a missing reading changes little and says what is left over', () => {
  const tangents = HANSEN.tangents.map((row) => [...row]);
  tangents[3]![1] = null;
  const short = fitLine({ ...HANSEN, tangents });
  expect(short.statesDof).toBe(6);
  expect(short.withinDof).toBe(13);
  expect(Math.abs(short.slope.value / fit.slope.value - 1)).toBeLessThan(1e-3);
  // a mean of what is there, intercepts unregarded, would pull the state by a third of an offset
  const naive = straightLine(
    HANSEN.moments,
    tangents.map((row) => {
      const read = row.filter((tangent) => tangent !== null);
      return read.reduce((sum, tangent) => sum + tangent, 0) / read.length;
    }),
  );
  const honest = Math.abs(short.stateResiduals[3]! - fit.stateResiduals[3]!);
  const naiveAt = naive.intercept + naive.slope * HANSEN.moments[3]!;
  expect(honest).toBeLessThan(Math.abs((0.00042 + 0) / 2 - naiveAt - fit.stateResiduals[3]!));
});

test('instruments that never stood together leave a group each to be found', () => {
  const moments = [0, 1, 2, 0, -1, -2];
  const tangents = [
    [0, null],
    [0.0101, null],
    [0.0199, null],
    [null, 0.005],
    [null, -0.005],
    [null, -0.0151],
  ];
  const apart = fitLine({ moments, tangents });
  expect(apart.statesDof).toBe(3);
  expect(apart.withinDof).toBe(0);
  expect(apart.stateDeviation).toBeNull();
  expect(apart.slope.value).toBeCloseTo(0.01, 4);
  expect(apart.intercepts[1]!.value).toBeCloseTo(0.005, 3);
});

test('a single instrument is a plain line', () => {
  const single = fitLine({ ...HANSEN, tangents: HANSEN.tangents.map((row) => [row[0]!]) });
  const plain = straightLine(
    HANSEN.moments,
    HANSEN.tangents.map((row) => row[0]!),
  );
  expect(single.slope.value).toBeCloseTo(plain.slope, 18);
  expect(single.slope.standardUncertainty).toBeCloseTo(plain.slopeUncertainty, 18);
  expect(single.intercepts[0]!.standardUncertainty).toBeCloseTo(plain.interceptUncertainty, 16);
  expect(single.ownDeviation).toBeNull();
});

test('moments as far from zero as epoch milliseconds give the same line', () => {
  const start = Date.UTC(2026, 10, 25);
  const moments = [0, 100, 200, 300, 400].map((by) => start + by);
  const far = fitLine({ moments, tangents: moments.map((moment) => [2 * (moment - start)]) });
  expect(far.slope.value).toBeCloseTo(2, 14);
});

test('too little for a line is refused with its code', () => {
  const two = { moments: [0, 1], tangents: [[0], [0.01]] };
  expect(() => fitLine(two)).toThrow(/input-too-few.*2 read/);
  const one = { moments: [1, 1, 1], tangents: [[0], [0], [0]] };
  expect(() => fitLine(one)).toThrow(/line-not-determined/);
  const hole = { moments: [0, 1, 2], tangents: [[0], [null], [0]] };
  expect(() => fitLine(hole)).toThrow(/input-too-few.*tangents\[1\]/);
  const nan = { moments: [0, 1, 2], tangents: [[0], [Number.NaN], [0]] };
  expect(() => fitLine(nan)).toThrow(/input-not-finite.*tangents\[1\]\[0\]/);
  const ragged = { moments: [0, 1, 2], tangents: [[0], [0, 1], [0]] };
  expect(() => fitLine(ragged)).toThrow(/input-unequal-length/);
});

test('a drift all instruments share is taken off, at the cost of one freedom', () => {
  const moments = [0, 3, 6, 3, 0, -3, -6, -3, 0];
  const driftTimes = moments.map((_, i) => 100 + 7 * i);
  const tangents = moments.map((moment, i) => [0.002 + 0.01 * moment + 5e-4 * i + 1e-6 * (i % 3)]);
  const fit = fitLine({ moments, tangents, driftTimes });
  expect(fit.slope.value).toBeCloseTo(0.01, 6);
  expect(fit.drift!.value).toBeCloseTo(8 * 5e-4, 5);
  expect(fit.statesDof).toBe(6);
  expect(fit.intercepts[0]!.value).toBeCloseTo(0.002, 5);
  expect(Math.max(...fit.stateResiduals.map(Math.abs))).toBeLessThan(3e-6);
  const still = { moments, tangents, driftTimes: moments.map(() => 5) };
  expect(() => fitLine(still)).toThrow(/line-not-determined.*driftTimes/);
});
