import { createRandom } from '#core/numerics/random.ts';
import type { CauseEvidence } from '#core/reduction/causes.ts';

/** Four weights of one tonne-metre each, carried across and back one after the other. */
export const ACROSS = ['', 'A', 'AB', 'A', '', 'C', 'CD', 'C', ''];
const SIGN: Record<string, number> = { A: 1, B: 1, C: -1, D: -1 };
const WEIGHTS = ['A', 'B', 'C', 'D'].map((weight) => ({
  weight,
  moments: ACROSS.map((across) => (across.includes(weight) ? SIGN[weight]! : 0)),
  distance: 4,
}));
const MOMENTS = ACROSS.map((_, i) => WEIGHTS.reduce((sum, one) => sum + one.moments[i]!, 0));
const SLOPE = 0.024;
const DEG = Math.PI / 180;

/**
 * Evidence of a day of nine states and three instruments with something wrong in it: tangent of a
 * state from its right one, what an instrument adds, her stiffness by state. Errors of a state
 * 0.002 degree, of an instrument 0.002, of a period 0.5 %.
 */
export function dayEvidence(
  wrong: {
    readonly heel?: (tangent: number, state: number) => number;
    readonly shown?: (state: number, instrument: number) => number;
    readonly stiffness?: (state: number) => number;
    readonly more?: Partial<CauseEvidence>;
    readonly seed?: number;
  } = {},
): CauseEvidence {
  const random = createRandom(wrong.seed ?? 1, 'cause evidence');
  const tangents = MOMENTS.map((moment, state) => {
    const right = SLOPE * moment + random.normal(0.002 * DEG);
    const heel = wrong.heel?.(right, state) ?? right;
    return [0, 1, 2].map(
      (j) => heel + 0.001 * j + random.normal(0.002 * DEG) + (wrong.shown?.(state, j) ?? 0),
    );
  });
  return {
    moments: MOMENTS,
    tangents,
    tangentPerMoment: SLOPE,
    stateNames: MOMENTS.map((_, i) => String(i)),
    instrumentNames: ['fore', 'aft', 'tube'],
    weights: WEIGHTS,
    timesS: MOMENTS.map((_, i) => 90 * i),
    claimedTangent: 0.003 * DEG,
    shapes: [],
    periods: MOMENTS.map((_, state) => ({
      state,
      periodS: (5 / Math.sqrt(wrong.stiffness?.(state) ?? 1)) * (1 + random.normal(0.004)),
      uncertaintyS: 0.025,
    })),
    traces: [],
    repeatsProbability: null,
    ...wrong.more,
  };
}
