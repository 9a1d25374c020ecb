import type { LoadedCondition } from '../condition/condition.ts';
import { freeSurfaceTM } from '../condition/free-surface.ts';
import { Fault } from '../fault/fault.ts';
import { waterlineAtHeel } from '../hull/equilibrium.ts';
import { hydrostaticsAt } from '../hull/hydrostatics.ts';
import { checkPositive } from '../quantity/check.ts';
import type { LiquidAboard } from '../reduction/liquids.ts';
import {
  conditionEvidence,
  type EvidenceQuestion,
  type FloatingEvidence,
} from '../stability/condition-evidence.ts';
import type { RuleSet } from '../stability/rule-set.ts';
import { momentsAt } from '../survey/mass-moments.ts';
import { type ClauseNamed, checkClauses } from './clause-check.ts';

/** What does not change along a curve of limiting KG. */
export interface LimitQuestion {
  readonly ask: Omit<EvidenceQuestion, 'loaded'>;
  /** Tanks taken as slack; without any the limit is of KG with the free surfaces in it. */
  readonly slack: readonly LiquidAboard[];
  /** Mass of the lightship, t, by which the decree calls surfaces small. */
  readonly lightshipT: number;
  readonly sets: readonly RuleSet[];
}

/** At one displacement and trim. `kgM` is with the slack tanks' liquids as if solid. */
export interface LimitingKg {
  readonly displacementT: number;
  /** Upright, between perpendiculars, positive by the stern. */
  readonly trimM: number;
  /** Null: some clause is not met at any KG. */
  readonly kgM: number | null;
  /** What is not met just above, or at any KG. */
  readonly governing: readonly ClauseNamed[];
}

/** KG is found to this, m: a clause is met so far below the limit and not met so far above it. */
const CLOSE_M = 1e-5;
const MOST_CUTS = 8;
/** KG is looked for from the baseline to this far over the metacentre, m. */
const OVER_KM_M = 1;

/**
 * The highest KG at which every clause that judges is met, her centre on the middle line. The hull is
 * cut at a KG, the limit found with those cuts, and the hull cut again there until both agree: then
 * the proof is of the vessel at that KG, trim and all. Throws `loading-no-limit`, `hull-sinks`,
 * `no-convergence`.
 */
export function limitingKg(
  question: LimitQuestion,
  displacementT: number,
  trimM: number,
): LimitingKg {
  const { hull, densityTM3 } = question.ask;
  checkPositive(displacementT, 'displacementT');
  const trimRad = Math.atan2(trimM, hull.forwardXM - hull.aftXM);
  const held = { fixedTrimRad: trimRad };
  const upright = waterlineAtHeel(hull, displacementT / densityTM3, 0, held);
  const { buoyancy, kmTransverseM } = hydrostaticsAt(hull, upright, densityTM3);
  const at = (kgM: number): FloatingEvidence => {
    const xM = buoyancy.xM + (kgM - buoyancy.zM) * Math.tan(trimRad);
    const loaded = afloatLike(question, displacementT, { xM, yM: 0, zM: kgM });
    return conditionEvidence({ ...question.ask, loaded });
  };
  const found = { displacementT, trimM };
  let [low, high] = [0, kmTransverseM + OVER_KM_M];
  let kgM = kmTransverseM / 2;
  for (let cut = 0; cut < MOST_CUTS; cut++) {
    const cuts = at(kgM);
    const check = (height: number) => checkClauses(question.sets, cuts.raised(height - kgM));
    if (cut === 0) {
      const lowest = check(low);
      if (!lowest.met) return { ...found, kgM: null, governing: lowest.failing };
      if (check(high).met) {
        throw new Fault('loading-no-limit', `${displacementT} t`, `all is met at KG ${high} m`);
      }
    }
    const below = check(kgM - CLOSE_M);
    const above = check(kgM + CLOSE_M);
    if (below.met && !above.met) return { ...found, kgM, governing: above.failing };
    [low, high] = below.met ? [kgM, kmTransverseM + OVER_KM_M] : [0, kgM];
    while (high - low > CLOSE_M / 4) {
      const middle = (low + high) / 2;
      if (check(middle).met) low = middle;
      else high = middle;
    }
    kgM = (low + high) / 2;
  }
  throw new Fault('no-convergence', 'limiting KG', `${displacementT} t, trim ${trimM} m`);
}

/** A curve or a table: every displacement at every trim. */
export function limitingKgTable(
  question: LimitQuestion,
  displacementsT: readonly number[],
  trimsM: readonly number[],
): LimitingKg[] {
  return displacementsT.flatMap((massT) =>
    trimsM.map((trimM) => limitingKg(question, massT, trimM)),
  );
}

/** A condition of one mass at one place, with the slack tanks in it. */
function afloatLike(
  { slack, lightshipT }: LimitQuestion,
  massT: number,
  centre: { readonly xM: number; readonly yM: number; readonly zM: number },
): LoadedCondition {
  const row = { kind: 'lightship', what: 'lightship', massT: lightshipT, at: centre } as const;
  return {
    name: `${massT} t`,
    rows: [{ ...row, freeSurfaceTM: 0 }],
    moments: momentsAt(massT, centre),
    centre,
    liquids: slack,
    freeSurfaceTM: slack.reduce((sum, one) => sum + freeSurfaceTM(one), 0),
    causes: null,
  };
}
