import { expect, test } from 'vitest';
import { fitLine } from '#core/reduction/line.ts';
import type { PlottedTest } from '#core/reduction/shape.ts';
import { oneReadingOff, oneScale } from '#core/reduction/shapes-of-instruments.ts';

const moments = [0, 1, 2, 1, 0, -1, -2, -1, 0];
const names = ['fore', 'aft', 'tube'];

function plotted(
  wrong: (tangent: number, state: number, instrument: number) => number,
  count = 3,
): PlottedTest {
  const tangents = moments.map((m, i) =>
    Array.from({ length: count }, (_, j) => {
      const scatter = 1e-5 * (((i * 7 + j * 5) % 9) - 4);
      return wrong(0.03 * m + 0.001 * j + scatter, i, j);
    }),
  );
  const readings = { moments, tangents };
  return {
    readings,
    fit: fitLine(readings),
    stateNames: moments.map((_, i) => `S${i}`),
    instrumentNames: names.slice(0, count),
    instrumentScaleUncertainties: names.slice(0, count).map(() => 0),
    weights: [],
  };
}

test('a reading that the others of its state contradict', () => {
  const found = oneReadingOff(plotted((t, i, j) => (i === 2 && j === 1 ? t + 0.001 : t)));
  expect([found.states, found.instrument]).toEqual([[2], 1]);
  expect(found.words).toContain('aft disagrees');
  expect(found.probability).toBeLessThan(1e-4);
});

test('a scale that the others contradict', () => {
  const found = oneScale(plotted((t, _i, j) => (j === 2 ? 0.98 * t : t)));
  expect(found.instrument).toBe(2);
  expect(found.words).toContain('tube shows less heel');
});

test('of two instruments nobody can say which is wrong', () => {
  const found = oneScale(plotted((t, _i, j) => (j === 1 ? 0.98 * t : t), 2));
  expect(found.words).toContain('a third would tell');
});

test('one instrument alone has neither shape', () => {
  expect(oneReadingOff(plotted((t) => t, 1)).probability).toBeNull();
  expect(oneScale(plotted((t) => t, 1)).probability).toBeNull();
});
