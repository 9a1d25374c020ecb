import { expect, test } from 'vitest';
import {
  interceptColumns,
  lineRows,
  MOST_STATES,
  shrunkFit,
  shrunkRest,
  withinStates,
} from '#core/reduction/line-model.ts';

const readings = {
  moments: [10, 12, 14],
  tangents: [
    [0.1, 0.3],
    [0.2, null],
    [0.4, 0.5],
  ],
};

test('rows are what was read, moments centred and scaled to one', () => {
  const rows = lineRows(readings);
  expect(rows.rows).toHaveLength(5);
  expect([rows.middleMoment, rows.momentScale]).toEqual([12, 2]);
  expect(rows.x).toEqual([-1, 0, 1]);
});

test('compared within states, what a state shares is gone', () => {
  const shared = readings.tangents.map((row, i) => row.map((t) => (t === null ? null : t + i)));
  const within = (tangents: (number | null)[][]) => {
    const rows = lineRows({ ...readings, tangents });
    return shrunkRest(rows, interceptColumns(rows), Number.POSITIVE_INFINITY);
  };
  expect(within(shared).rest).toBeCloseTo(within(readings.tangents).rest, 12);
  expect(within(shared).rank).toBe(1);
});

test('the weighted residuals add to nothing within a state', () => {
  const rows = lineRows({ ...readings, ownVariances: [1, 4] });
  const { left } = withinStates(rows, []);
  rows.rows.forEach(({ state }, k) => {
    const ofState = rows.rows.reduce(
      (sum, row, i) => (row.state === state ? sum + row.root * left[i]! : sum),
      0,
    );
    expect(ofState).toBeCloseTo(0, 12);
    expect(Number.isFinite(left[k]!)).toBe(true);
  });
});

test('without a shared variance the fit is ordinary least squares of the rows', () => {
  const rows = lineRows(readings);
  const fit = shrunkFit(rows, [() => 1], 0);
  expect(fit.coefficients[0]).toBeCloseTo((0.1 + 0.3 + 0.2 + 0.4 + 0.5) / 5, 12);
});

test('more states than the limit are refused', () => {
  const many = Array.from({ length: MOST_STATES + 1 }, (_, i) => i);
  expect(() => lineRows({ moments: many, tangents: many.map(() => [0]) })).toThrow(
    /input-too-large/,
  );
});

test('a variance that is none is refused', () => {
  expect(() => lineRows({ ...readings, ownVariances: [1, 0] })).toThrow(/input-range/);
  expect(() => lineRows({ ...readings, ownVariances: [1] })).toThrow(/input-unequal-length/);
});
