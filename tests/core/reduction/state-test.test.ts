import { expect, test } from 'vitest';
import { straightLine } from '#core/numerics/least-squares.ts';
import { fitLine } from '#core/reduction/line.ts';
import { testStateColumns } from '#core/reduction/state-test.ts';

const moments = [0, 1, 2, 1, 0, -1, -2, -1, 0];
const y = [0.2, 1.1, 1.9, 1.0, 0.1, -1.05, -2.1, -0.9, 0.4];
const readings = { moments, tangents: y.map((tangent) => [tangent]) };

test('a state on its own column is its residual studentised without it', () => {
  const fit = fitLine(readings);
  const tested = testStateColumns(readings, fit, [moments.map((_, i) => (i === 6 ? 1 : 0))])!;
  const others = (values: readonly number[]) => values.filter((_, i) => i !== 6);
  const without = straightLine(others(moments), others(y));
  const predicted = without.intercept + without.slope * moments[6]!;
  expect(tested.coefficients[0]).toBeCloseTo(y[6]! - predicted, 12);
  expect(tested.slope).toBeCloseTo(without.slope, 12);
  expect(tested.test.lowerDof).toBe(6);
});

test('a column that follows from the line, or leaves nothing over, is not tested', () => {
  const fit = fitLine(readings);
  expect(testStateColumns(readings, fit, [moments.map((moment) => 3 * moment + 1)])).toBeNull();
  const three = { moments: [0, 1, 2], tangents: [[0], [1.1], [1.9]] };
  expect(testStateColumns(three, fitLine(three), [[0, 1, 0]])).toBeNull();
});

test('states on the line to rounding are not judged by rounding', () => {
  const exact = { moments, tangents: moments.map((moment) => [0.1 * moment + 0.3]) };
  const column = moments.map((moment) => moment ** 3);
  expect(testStateColumns(exact, fitLine(exact), [column])).toBeNull();
});
