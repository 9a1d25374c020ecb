import type { LoadedCondition } from '../condition/condition.ts';
import { freeSurfaceTM } from '../condition/free-surface.ts';
import { liquidCentre } from '../condition/liquid-at-heel.ts';
import type { LiquidAboard } from '../reduction/liquids.ts';
import { conditionEvidence, type EvidenceQuestion } from '../stability/condition-evidence.ts';
import type { RuleSet } from '../stability/rule-set.ts';
import { momentsAt, momentsCentre, momentsTimes, momentsTogether } from '../survey/mass-moments.ts';
import { wholeTank } from '../survey/tank-liquid.ts';
import { atUpperKg } from './at-upper-kg.ts';
import { withChange } from './change.ts';
import { type ClauseNamed, checkClauses } from './clause-check.ts';

/** One thing that by itself makes every clause that judges met, seen by working it out. */
export type Remedy =
  | { readonly kind: 'shut'; readonly what: string }
  | { readonly kind: 'fill' | 'empty'; readonly what: string; readonly massT: number }
  | { readonly kind: 'lower'; readonly what: string; readonly massT: number; readonly byM: number }
  | { readonly kind: 'leave-ashore'; readonly what: string; readonly massT: number };

export interface Remedies {
  /** What is not met as she is. */
  readonly failing: readonly ClauseNamed[];
  /** By how much KG has to come down with all else as it is, m; null: no KG helps. */
  readonly kgTooHighM: number | null;
  /** The least trouble first: shut, fill or empty, lower, leave ashore. */
  readonly remedies: readonly Remedy[];
}

/** Nothing is stowed lower than this over the baseline: our setting. m. */
const LOWEST_M = 0.3;
/** Masses and heights are found to this share of what they are sought in. */
const HALVINGS = 12;

/**
 * What would put a condition right, each by itself, at the upper 95 % of KG. `shut` is for the crew to
 * keep: an opening now kept open. Null where the lightship's uncertainty is not known, and nothing is
 * advised. Throws `loading-no-limit`.
 */
export function remediesFor(question: EvidenceQuestion, sets: readonly RuleSet[]): Remedies | null {
  const upper = atUpperKg(question);
  if (upper === null) return null;
  const evidence = conditionEvidence(upper);
  const check = checkClauses(sets, evidence);
  if (check.met) return { failing: [], kgTooHighM: 0, remedies: [] };
  const isMet = (of: EvidenceQuestion) => checkClauses(sets, conditionEvidence(of)).met;
  const kgTooHighM = leastWith(
    upper.loaded.centre.zM,
    (byM) => checkClauses(sets, evidence.raised(-byM)).met,
  );
  const remedies = [
    ...shutting(upper, isMet),
    ...pressing(upper, isMet),
    ...(kgTooHighM === null ? [] : lowering(upper, kgTooHighM, isMet)),
    ...leaving(upper, isMet),
  ];
  return { failing: check.failing, kgTooHighM, remedies };
}

/** The least from 0 to `most` at which something holds, if it holds at all there; to the safe side. */
function leastWith(most: number, holds: (amount: number) => boolean): number | null {
  if (!holds(most)) return null;
  let [low, high] = [0, most];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

type IsMet = (question: EvidenceQuestion) => boolean;

function shutting(question: EvidenceQuestion, isMet: IsMet): Remedy[] {
  return question.openings
    .filter(({ openFrom }) => openFrom === 'open-at-sea' || openFrom === 'open-at-worst')
    .filter(({ opening }) => {
      const openings = question.openings.map((one) =>
        one.opening === opening ? { ...one, openFrom: null } : one,
      );
      return isMet({ ...question, openings });
    })
    .map(({ opening }) => ({ kind: 'shut', what: opening.name }));
}

/** Slack tanks pressed full, or pumped empty. */
function pressing(question: EvidenceQuestion, isMet: IsMet): Remedy[] {
  return question.loaded.liquids.flatMap((liquid) => {
    const capacityM3 = wholeTank(liquid.shape).volumeM3;
    if (liquid.volumeM3 >= capacityM3 * (1 - 1e-9)) return [];
    return (['fill', 'empty'] as const).flatMap((kind): Remedy[] => {
      const volumeM3 = kind === 'fill' ? capacityM3 : 0;
      const loaded = withTank(question.loaded, liquid, volumeM3);
      if (!isMet({ ...question, loaded })) return [];
      const massT = Math.abs(volumeM3 - liquid.volumeM3) * liquid.densityTM3;
      return [{ kind, what: liquid.tank, massT }];
    });
  });
}

function withTank(
  loaded: LoadedCondition,
  liquid: LiquidAboard,
  volumeM3: number,
): LoadedCondition {
  const momentsOf = (one: LiquidAboard) =>
    momentsAt(one.volumeM3 * one.densityTM3, liquidCentre(one, 0, 0) ?? { xM: 0, yM: 0, zM: 0 });
  const then = { ...liquid, volumeM3 };
  const moments = momentsTogether([
    loaded.moments,
    momentsTimes(momentsOf(liquid), -1),
    momentsOf(then),
  ]);
  return {
    ...loaded,
    moments,
    centre: momentsCentre(moments),
    liquids: loaded.liquids.flatMap((one) => (one !== liquid ? [one] : volumeM3 > 0 ? [then] : [])),
    freeSurfaceTM: loaded.freeSurfaceTM - freeSurfaceTM(liquid) + freeSurfaceTM(then),
  };
}

/** Items heavy and high enough to bring KG down by themselves; the first guess is proven. */
function lowering(question: EvidenceQuestion, kgTooHighM: number, isMet: IsMet): Remedy[] {
  const { rows, moments } = question.loaded;
  return rows
    .filter(({ kind, massT }) => kind === 'item' && massT > 0)
    .flatMap(({ what, massT, at }): Remedy[] => {
      const byM = (kgTooHighM * moments.massT) / massT;
      if (at.zM - byM < LOWEST_M) return [];
      const to = { ...at, zM: at.zM - byM };
      const moved = withChange(question, { act: 'move', what, massT, at, to });
      return isMet(moved) ? [{ kind: 'lower', what, massT, byM }] : [];
    })
    .sort((a, b) => (a.kind === 'lower' && b.kind === 'lower' ? a.byM - b.byM : 0));
}

function leaving(question: EvidenceQuestion, isMet: IsMet): Remedy[] {
  return question.loaded.rows
    .filter(({ kind, massT }) => kind === 'item' && massT > 0)
    .flatMap(({ what, massT, at }): Remedy[] => {
      const ashore = leastWith(massT, (mass) =>
        isMet(withChange(question, { act: 'remove', what, massT: mass, at })),
      );
      return ashore === null ? [] : [{ kind: 'leave-ashore', what, massT: ashore }];
    })
    .sort((a, b) =>
      a.kind === 'leave-ashore' && b.kind === 'leave-ashore' ? a.massT - b.massT : 0,
    );
}
