import { type Righting, rightingFrom } from '../flotation/righting.ts';
import { checkEqualLength, checkPositive } from '../quantity/check.ts';
import { type Answer, answerWithBudget, type Causes } from './budget.ts';
import type { GmProblem } from './gm.ts';
import { type LiquidAboard, liquidsLeverM } from './liquids.ts';
import { withLocalExcess } from './local-excess.ts';

/** What the exact equation needs of the vessel as she was inclined. */
export interface ExactHull {
  /** KN = y_B cos(heel) + z_B sin(heel) by heel, at the displacement of the problem and a trim, m. */
  readonly knAt: (trimSlope: number) => (heelRad: number) => number;
  readonly liquids: readonly LiquidAboard[];
  /** Tangent of the trim in each state, by the stern; weights moved forward change it. */
  readonly trimSlopes: readonly number[];
  /** Standard uncertainty of each liquid's own free-surface moment over displacement, relative. */
  readonly liquidUncertaintyShare: number;
  /** One standard uncertainty of KM, apart from the causes that move displacement with it. */
  readonly kmUncertaintyM: number;
}

export interface ExactAnswer {
  /** Fluid GM upright; its `kg` is KG solid, the liquids held still. */
  readonly answer: Answer;
  readonly gmSolidM: number;
  /** KM upright by the hull itself, liquids not taken off. */
  readonly kmM: number;
  /** GM lost upright to the liquids' free surfaces. */
  readonly freeSurfaceM: number;
}

/**
 * KG solid from the exact equation of a steady heel,
 * (TCG + m_y / D) cos + (KG + m_z / D) sin = KN(heel) - sum (m_i / D)(dy_i cos + dz_i sin),
 * with no wall-sided assumption and no small angle. Divided by the cosine it is a line in the
 * tangent (see `solveGm`), so scatter, budget and diagnosis are those of the line.
 */
export function exactAnswer(problem: GmProblem, causes: Causes, hull: ExactHull): ExactAnswer {
  const displacement = checkPositive(problem.displacement, 'displacement');
  checkEqualLength(hull.trimSlopes, problem.heelingMoments, 'trims and states');
  const { liquids, trimSlopes, knAt } = hull;
  const first = trimSlopes[0] ?? 0;
  const none = () => 0;
  const dry = rightingFrom(knAt(first), none);
  const atTrim = new Map<number, Righting>();
  for (const trimSlope of trimSlopes) {
    if (!atTrim.has(trimSlope)) {
      const lever = liquidsLeverM(liquids, displacement, trimSlope);
      atTrim.set(trimSlope, rightingFrom(knAt(trimSlope), lever));
    }
  }
  const { metacentreM } = atTrim.get(first)!;
  const rightings = trimSlopes.map((trimSlope) => atTrim.get(trimSlope)!);
  // states of one arrangement stand at one heel: each is cut once
  const known = new Map<string, number>();
  const excess = (tangent: number, state: number): number => {
    const key = `${trimSlopes[state]} ${tangent}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const righting = rightings[state]!;
    const found = righting.excessM(tangent) + (righting.metacentreM - metacentreM) * tangent;
    known.set(key, found);
    return found;
  };
  const answer = answerWithBudget(withLocalExcess({ ...problem, metacentreMovement: 0 }, excess), {
    ...causes,
    km: { value: metacentreM, standardUncertainty: hull.kmUncertaintyM },
    together: [...causes.together, ...surfaceCauses(hull, displacement)],
  });
  const freeSurfaceM = dry.metacentreM - metacentreM;
  return {
    answer,
    gmSolidM: answer.solution.gm + freeSurfaceM,
    kmM: dry.metacentreM,
    freeSurfaceM,
  };
}

/** Each tank's free surface as a cause of its own: it moves KG solid, not the fluid GM. */
function surfaceCauses(hull: ExactHull, displacement: number): Causes['together'] {
  const trimSlope = hull.trimSlopes[0] ?? 0;
  return hull.liquids.flatMap((one) => {
    const lever = liquidsLeverM([one], displacement, trimSlope);
    const km = rightingFrom(() => 0, lever).metacentreM * hull.liquidUncertaintyShare;
    const cause = `free surface in ${one.tank}`;
    return km === 0 ? [] : [{ cause, displacement: 0, km, metacentreMovement: 0 }];
  });
}
