import { expect, it } from 'vitest';
import { reduceTest } from '#core/reduction/reduce-test.ts';
import type { TestInput } from '#core/reduction/test-input.ts';
import { HANSEN } from '#tests/core/reduction/hansen.ts';

const ORDER = [
  ['A', 4],
  ['B', 4],
  ['B', -4],
  ['A', -4],
  ['C', -4],
  ['D', -4],
  ['D', 4],
  ['C', 4],
] as const;
const NOISE = [1, -2, 1, 2, -1, -1, 2, 0, -2];

/** Read on one pendulum, in metres; one weight of 0.5 t really was `reallyA`. */
function written(reallyA: number): TestInput {
  const at: Record<string, number> = { A: 0, B: 0, C: 0, D: 0 };
  const state = (k: number) => {
    const moment = Object.entries(at).reduce(
      (sum, [weight, y]) => sum + (weight === 'A' ? reallyA : 0.5) * y,
      0,
    );
    return { readings: { pendulum: 4 * (0.001 + moment / 60) + 1e-4 * NOISE[k]! } };
  };
  const states = [state(0)];
  const moved = ORDER.map(([weight, distance], k) => {
    at[weight] = at[weight]! + distance;
    return { ...state(k + 1), moves: [{ weight, distance }] };
  });
  return {
    heelwrightTest: 1,
    name: 'by hand',
    weights: ['A', 'B', 'C', 'D'].map((weight) => ({ weight, mass: 0.5 })),
    instruments: [{ instrument: 'pendulum', reads: 'deflection', length: 4 }],
    states: [...states, ...moved],
  };
}

it('names the weight of a test by hand, and how far it acts as carried', () => {
  const [first] = reduceTest(written(0.45)).diagnosis.causes;
  expect(first).toMatchObject({ cause: 'weight', weight: 'A' });
  expect(first!.words).toMatch(
    /A acts as carried 3\.[56]\d, not 4\.00, or as (9|10)\.\d % lighter/,
  );
});

it('names nothing of a good one', () => {
  expect(reduceTest(written(0.5)).diagnosis.causes).toEqual([]);
});

// Hansen 1985 (Biran 2003, example 7.1): R squared .9994, and a zero that jumped by 0.0257 degree between the sides
it('gives the jump hidden in a published test its cause, though no reading claims an error', () => {
  const names = ['1', '2', '3'];
  const { causes } = reduceTest({
    heelwrightTest: 1,
    name: 'Hansen 1985',
    units: { mass: 'ton', length: 'ft' },
    instruments: names.map((instrument) => ({ instrument, reads: 'tangent' as const })),
    states: HANSEN.moments.map((heelingMoment, i) => ({
      heelingMoment,
      readings: Object.fromEntries(names.map((name, j) => [name, HANSEN.tangents[i]![j]!])),
    })),
  }).diagnosis;
  expect(causes.map(({ cause }) => cause)).toEqual(['moved']);
  expect(causes[0]!.words).toContain('from state 4 on, 0.026 deg to port');
  expect(causes[0]!.evidence[0]!.words).toBe('the plot shows a step');
});
