import { describe, expect, it } from 'vitest';
import { leastSquares } from '#core/numerics/least-squares.ts';
import { PointsRest, supportOf } from '#core/reduction/cause-fit.ts';

const X = [0, 1, 2, 1, 0, -1, -2, -1, 0];
const POINTS = [0.3, 1.1, 2.2, 0.8, 0.1, -1.2, -1.7, -0.9, 0.2];
const COLUMN = X.map((x, i) => (i >= 4 ? 1 + 0.1 * x : 0));
const claim = (deviation: number) => ({ deviation, freedom: 4 });
const ONES = X.map(() => 1);

describe('points with columns taken off', () => {
  it('leave what least squares leaves, with one more column and without', () => {
    const rest = new PointsRest(POINTS, [ONES, X]);
    const two = leastSquares(
      X.map((x) => [1, x]),
      POINTS,
    );
    const three = leastSquares(
      X.map((x, i) => [1, x, COLUMN[i]!]),
      POINTS,
    );
    expect(rest.rest).toBeCloseTo(two.rest, 12);
    const fit = rest.with(COLUMN)!;
    expect(fit.rest).toBeCloseTo(three.rest, 12);
    expect(fit.size).toBeCloseTo(three.coefficients[2]!, 12);
    expect(fit.sizeError).toBeCloseTo(Math.sqrt((three.rest / 6) * three.cofactor[2]![2]!), 12);
  });

  it('tell nothing of a column that follows from what was taken off, or of the last point', () => {
    const rest = new PointsRest(POINTS, [ONES, X]);
    expect(rest.with(X.map((x) => 3 - 2 * x))).toBeNull();
    expect(
      new PointsRest(
        [1, 2, 4],
        [
          [1, 1, 1],
          [0, 1, 2],
        ],
      ).with([1, 0, 0]),
    ).toBeNull();
  });
});

describe('support', () => {
  const fit = { restBefore: 9e-4, rest: 1e-5 };
  it('grows with what is explained, and falls with the places looked at', () => {
    expect(supportOf(fit, 9, claim(0.001), 1)).toBeGreaterThan(10);
    const half = supportOf({ ...fit, rest: 4.5e-4 }, 9, claim(0.001), 1);
    expect(half).toBeLessThan(supportOf(fit, 9, claim(0.001), 1));
    expect(supportOf(fit, 9, claim(0.001), 1) - supportOf(fit, 9, claim(0.001), 8)).toBeCloseTo(
      Math.log(8),
      12,
    );
  });

  it('is none of what the readings claim as their own error anyhow', () => {
    expect(supportOf(fit, 9, claim(0.05), 1)).toBeLessThan(0);
  });

  it('costs what a size of its own costs where nothing is explained', () => {
    expect(supportOf({ restBefore: 1, rest: 1 }, 9, claim(0.1), 1)).toBeCloseTo(-Math.log(3), 12);
  });
});
