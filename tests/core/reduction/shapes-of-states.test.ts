import { expect, test } from 'vitest';
import { fitLine } from '#core/reduction/line.ts';
import type { PlottedTest } from '#core/reduction/shape.ts';
import {
  curve,
  oneSideShort,
  oneStateOff,
  oneWeight,
  step,
} from '#core/reduction/shapes-of-states.ts';

const moments = [0, 1, 2, 1, 0, -1, -2, -1, 0];
const wobble = [2, -1, 1, -2, 1, 2, -1, -1, -1];

/** A fixed small scatter about the line, and something wrong beside it. */
function plotted(wrong: (moment: number, state: number) => number, only = moments): PlottedTest {
  const readings = {
    moments: only,
    tangents: only.map((m, i) => [0.03 * m + 2e-5 * wobble[i]! + wrong(m, i)]),
  };
  const carried = only.map((m) => Math.max(0, Math.min(1, m)));
  return {
    readings,
    fit: fitLine(readings),
    stateNames: only.map((_, i) => `S${i}`),
    instrumentNames: ['fore'],
    instrumentScaleUncertainties: [0],
    weights: [
      { weight: 'A', moments: carried },
      { weight: 'B', moments: only.map((m, i) => m - carried[i]!) },
    ],
  };
}

test('one state off, to its side and by its name', () => {
  const found = oneStateOff(plotted((_, i) => (i === 5 ? -0.001 : 0)));
  expect(found.states).toEqual([5]);
  expect(found.words).toContain('state S5 lies to port');
  expect(found.probability).toBeLessThan(1e-4);
});

test('a step after a state, and all states after it', () => {
  const found = step(plotted((_, i) => (i >= 4 ? 0.001 : 0)));
  expect(found.states).toEqual([4, 5, 6, 7, 8]);
  // .001 of tangent is .0573 degree
  expect(found.words).toMatch(/after state S3 .* 0\.057\d deg more to starboard/);
});

test('one side short names the side', () => {
  const starboard = oneSideShort(plotted((m) => (m > 0 ? -0.001 * m : 0)));
  expect(starboard.words).toContain('to starboard than to the other');
  expect(starboard.states).toEqual([1, 2, 3]);
  const port = oneSideShort(plotted((m) => (m < 0 ? -0.001 * m : 0)));
  expect(port.states).toEqual([5, 6, 7]);
});

test('a test to one side only cannot show a short side', () => {
  const oneSided = moments.map(Math.abs);
  expect(oneSideShort(plotted(() => 0, oneSided)).probability).toBeNull();
});

test('an odd curve grows or lags towards its ends', () => {
  expect(curve(plotted((m) => 0.0005 * m ** 3)).words).toContain('grows faster');
  expect(curve(plotted((m) => -0.0005 * m ** 3)).words).toContain('lags');
});

test('a weight heavier than stated', () => {
  const heavy = plotted((m) => 0.001 * Math.max(0, Math.min(1, m)));
  const found = oneWeight({
    ...heavy,
    weights: [...heavy.weights, { weight: 'C', moments: moments.map((m) => (m < 0 ? -1 : 0)) }],
  });
  expect(found.weight).toBeNull();
  // A and B here make the whole moment: A heavy looks as B light does
  expect(found.words).toContain('A larger, or B smaller;');
  const third = { weight: 'D', moments: moments.map((m) => (m > 1 ? 1 : 0)) };
  const told = oneWeight({ ...heavy, weights: [heavy.weights[0]!, third] });
  expect(told.weight).toBe(0);
});
