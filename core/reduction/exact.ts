import { checkPositive } from '../quantity/check.ts';
import { type Answer, answerWithBudget, type Causes } from './budget.ts';
import type { GmProblem } from './gm.ts';
import { type LiquidAboard, liquidsLeverM } from './liquids.ts';
import { rightingFrom } from './righting.ts';

/** What the exact equation needs of the vessel as she was inclined. */
export interface ExactHull {
  /** KN = y_B cos(heel) + z_B sin(heel) by heel at the displacement of the problem, m. */
  readonly knM: (heelRad: number) => number;
  readonly liquids: readonly LiquidAboard[];
  /** Tangent of the trim she had, for the liquids' surfaces. */
  readonly trimSlope: number;
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
  const { liquids, trimSlope, knM } = hull;
  const none = () => 0;
  const dry = rightingFrom(knM, none);
  const wet =
    liquids.length === 0 ? dry : rightingFrom(knM, liquidsLeverM(liquids, displacement, trimSlope));
  const ofLiquids = liquids.flatMap((one) => {
    const { metacentreM } = rightingFrom(none, liquidsLeverM([one], displacement, trimSlope));
    const km = metacentreM * hull.liquidUncertaintyShare;
    return km === 0
      ? []
      : [{ cause: `free surface in ${one.tank}`, displacement: 0, km, metacentreMovement: 0 }];
  });
  const answer = answerWithBudget(
    { ...problem, metacentreMovement: 0, excess: wet.excessM },
    {
      ...causes,
      km: { value: wet.metacentreM, standardUncertainty: hull.kmUncertaintyM },
      together: [...causes.together, ...ofLiquids],
    },
  );
  const freeSurfaceM = dry.metacentreM - wet.metacentreM;
  return {
    answer,
    gmSolidM: answer.solution.gm + freeSurfaceM,
    kmM: dry.metacentreM,
    freeSurfaceM,
  };
}
