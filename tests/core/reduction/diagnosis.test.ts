import { expect, test } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import {
  CHANCE_OF_FALSE_TROUBLE,
  type Diagnosis,
  diagnosePlot,
} from '#core/reduction/diagnosis.ts';
import { fitLine } from '#core/reduction/line.ts';
import type { ShapeName } from '#core/reduction/shape.ts';
import { HANSEN } from '#tests/core/reduction/hansen.ts';

/** Four equal weights of a common standard test: which are across in each state. */
const ACROSS = ['', 'A', 'AB', 'A', '', 'C', 'CD', 'C', ''];
const SIGN: Record<string, number> = { A: 1, B: 1, C: -1, D: -1 };
const WEIGHTS = ['A', 'B', 'C', 'D'];

const weightMoments = WEIGHTS.map((weight) => ({
  weight,
  moments: ACROSS.map((across) => (across.includes(weight) ? SIGN[weight]! : 0)),
}));
const moments = ACROSS.map((_, i) => weightMoments.reduce((sum, one) => sum + one.moments[i]!, 0));

type Trouble = (tangent: number, state: number, instrument: number) => number;

/** Two units of moment heel by .06; states scatter by 1.5e-4, readings by 5e-5, in tangent. */
function diagnosed(trouble: Trouble, seed: number): Diagnosis {
  const random = createRandom(seed, 'diagnosis');
  const tangents = moments.map((moment, state) => {
    const shared = random.normal(1.5e-4);
    return [0, 1, 2].map((j) =>
      trouble(0.03 * moment + shared + random.normal(5e-5) + 0.001 * j, state, j),
    );
  });
  const readings = { moments, tangents };
  return diagnosePlot({
    readings,
    fit: fitLine(readings),
    stateNames: moments.map((_, i) => String(i)),
    instrumentNames: ['fore', 'aft', 'tube'],
    instrumentScaleUncertainties: [0, 0, 0],
    weights: weightMoments,
  });
}

const TROUBLES: { name: ShapeName; trouble: Trouble; says: RegExp }[] = [
  {
    name: 'one state off',
    trouble: (t, state) => (state === 3 ? t + 0.002 : t),
    says: /state 3 lies to starboard/,
  },
  {
    name: 'one reading off',
    trouble: (t, state, j) => (state === 6 && j === 1 ? t - 0.0007 : t),
    says: /aft disagrees .* state 6 alone/,
  },
  {
    name: 'a step',
    trouble: (t, state) => (state >= 5 ? t - 0.0015 : t),
    says: /after state 4 on everything lies 0\.\d+ deg more to port/,
  },
  {
    name: 'one side short',
    trouble: (t, state) => (moments[state]! < 0 ? t * 0.95 : t),
    says: /less for the same moment to port/,
  },
  {
    name: 'a curve',
    trouble: (t, state) => t + 0.0016 * (moments[state]! / 2) ** 3 - 0.0016 * (moments[state]! / 2),
    says: /grows faster/,
  },
  {
    name: 'scale of one instrument',
    trouble: (t, _state, j) => (j === 2 ? t * 1.01 : t),
    says: /tube shows more heel/,
  },
];

test.each(TROUBLES)('$name is seen and named first', ({ name, trouble, says }) => {
  let first = 0;
  for (let seed = 1; seed <= 20; seed++) {
    const { shapes, troubleSeen, verdict } = diagnosed(trouble, seed);
    const shape = shapes.find((one) => one.shape === name)!;
    if (shapes[0] === shape && shape.seen && says.test(shape.words)) first += 1;
    if (shape.seen) expect([troubleSeen, verdict.includes(name)]).toEqual([true, true]);
  }
  // a shape is now and then taken for its neighbour: a curve for an end point off
  expect(first).toBeGreaterThanOrEqual(14);
});

test('a weight of another moment than stated is seen, and may be told from the other shapes', () => {
  let seen = 0;
  for (let seed = 1; seed <= 20; seed++) {
    const heavy: Trouble = (t, state) => t + 0.05 * 0.03 * weightMoments[1]!.moments[state]!;
    const { troubleSeen } = diagnosed(heavy, seed);
    if (troubleSeen) seen += 1;
  }
  expect(seen).toBeGreaterThanOrEqual(14);
});

test('a good test shows some shape about as often as set, not more', () => {
  const tests = 400;
  let troubled = 0;
  for (let seed = 1; seed <= tests; seed++) {
    if (diagnosed((t) => t, seed).troubleSeen) troubled += 1;
  }
  // binomial standard deviation 1.5 %
  expect(troubled / tests).toBeLessThan(CHANCE_OF_FALSE_TROUBLE + 0.045);
  expect(troubled / tests).toBeGreaterThan(0.03);
});

test('Hansen: the zero jumped after the fourth state, R squared of .9994 or not', () => {
  const { shapes, verdict } = diagnosePlot({
    readings: HANSEN,
    fit: fitLine(HANSEN),
    stateNames: HANSEN.moments.map((_, i) => String(i)),
    instrumentNames: ['1', '2', '3'],
    instrumentScaleUncertainties: [0, 0, 0],
    weights: [],
  });
  expect(verdict).toBe('seen in the plot: a step');
  expect(shapes[0]!.states).toEqual([4, 5, 6, 7]);
  const weight = shapes.find((one) => one.shape === 'moment of one weight')!;
  expect(weight.probability).toBeNull();
});

test('the words never let the weights go', () => {
  const { verdict } = diagnosed((t) => t, 3);
  expect(verdict).toBe('no trouble seen in the plot');
});

test('points on the line to rounding are not judged by their rounding', () => {
  const readings = { moments, tangents: moments.map((moment) => [0.03 * moment]) };
  const exact = diagnosePlot({
    readings,
    fit: fitLine(readings),
    stateNames: moments.map((_, i) => String(i)),
    instrumentNames: ['fore'],
    instrumentScaleUncertainties: [0],
    weights: weightMoments,
  });
  expect(exact.troubleSeen).toBe(false);
});
