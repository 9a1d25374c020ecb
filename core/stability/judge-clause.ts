import { UNKNOWN, type Unknown } from './answer.ts';
import { factorFor, isAsked } from './applies-to.ts';
import type { Asked } from './asked.ts';
import { type ConditionEvidence, type FreeSurfaceMethod, SIDES, type Side } from './evidence.ts';
import { type Figure, type MovedEvidence, type Outcome, weigh } from './margin.ts';
import type { Clause, Provenance, RuleSet, Way } from './rule-set.ts';

/**
 * `met-within-uncertainty`: on the right side by less than the margin's expanded uncertainty; counts as
 * not met unless the architect signs otherwise. `not-judged`: refused, with why. `not-asked`: the
 * clause is for other vessels or conditions.
 */
export type Verdict = Outcome | 'not-judged' | 'not-asked';

export const NOT_JUDGED = {
  ...UNKNOWN,
  'outside-scope': 'she is outside what the rule set applies to',
  'not-verified': 'not verified, not for submission: the clause is from memory',
} as const;
export type NotJudgedCode = keyof typeof NOT_JUDGED;

export interface ClauseVerdict {
  readonly ruleSet: string;
  readonly clause: string;
  /** As printed in the text, its words and formula. */
  readonly printed: string;
  readonly words: string;
  readonly formula: string;
  readonly provenance: Provenance;
  readonly verdict: Verdict;
  readonly notJudged: { readonly code: NotJudgedCode; readonly detail: string } | null;
  /** How the arithmetic comes out, from memory or not; null where it could not be done. */
  readonly computed: Outcome | null;
  /** The way that governs, its worst figure first; empty where nothing could be computed. */
  readonly figures: readonly Figure[];
  /** From which side, and with the liquids counted how, this came out worst. */
  readonly side: Side | null;
  readonly freeSurface: FreeSurfaceMethod | null;
}

/** One side and one way to count liquids. */
interface View {
  readonly asked: Asked;
  readonly judged: WayResult;
  /** Also with ways and figures that are from memory. */
  readonly computed: WayResult;
}

interface WayResult {
  readonly outcome: Outcome | 'unknown';
  readonly figures: readonly Figure[];
  readonly unknown: Unknown | null;
  readonly verified: boolean;
}

const ORDER = ['not-met', 'unknown', 'met-within-uncertainty', 'met'] as const;

function rank(of: WayResult): number {
  return ORDER.indexOf(of.outcome);
}

/**
 * The verdict of one clause of a set on one condition, the vessel being inside what the set applies
 * to. Both sides, and both the set's own way to count liquids and the exact one: the worst governs.
 * Ways and figures from memory are computed and left out of the verdict.
 */
export function judgeClause(
  set: RuleSet,
  clause: Clause,
  evidence: ConditionEvidence,
  moved: readonly MovedEvidence[],
): ClauseVerdict {
  const bare = bareVerdict(set, clause);
  const asked = isAsked(clause, evidence);
  if (asked === false) return { ...bare, verdict: 'not-asked' };
  const factor = factorFor(clause, evidence.vessel);
  if (asked === null || factor === null)
    return notJudged(bare, 'particulars-not-given', 'services, decked or number of hulls');
  const methods = [...new Set<FreeSurfaceMethod>([set.freeSurface, 'exact'])];
  const views = SIDES.flatMap((side) =>
    methods.map((method): Asked => ({ evidence, side, method })),
  ).filter((view) => clause.when === undefined || isCalledFor(view, moved, clause.when));
  if (views.length === 0) return { ...bare, verdict: 'not-asked' };
  const seen = views.map((view) => viewOf(view, moved, clause, factor));
  return verdictOf(bare, seen);
}

/** A clause that is not judged, and says why. */
export function notJudged(bare: ClauseVerdict, code: NotJudgedCode, detail: string): ClauseVerdict {
  return { ...bare, verdict: 'not-judged', notJudged: { code, detail } };
}

export function bareVerdict(set: RuleSet, clause: Clause): ClauseVerdict {
  return {
    ruleSet: set.id,
    clause: clause.id,
    printed: clause.clause,
    words: clause.words,
    formula: clause.formula,
    provenance: clause.provenance,
    verdict: 'not-asked',
    notJudged: null,
    computed: null,
    figures: [],
    side: null,
    freeSurface: null,
  };
}

function verdictOf(bare: ClauseVerdict, views: readonly View[]): ClauseVerdict {
  const computed = worst(views.map((view) => ({ ...view, result: view.computed })));
  const verified = views.filter((view) => view.judged.verified);
  const judged = worst(verified.map((view) => ({ ...view, result: view.judged })));
  const decided = judged !== null && judged.result.outcome === 'not-met';
  const shown = decided || verified.length === views.length ? judged! : computed!;
  const { outcome, unknown, figures } = shown.result;
  const base: ClauseVerdict = {
    ...bare,
    computed: computed!.result.outcome === 'unknown' ? null : computed!.result.outcome,
    figures,
    side: shown.asked.side,
    freeSurface: shown.asked.method,
  };
  if (outcome === 'unknown') return notJudged(base, unknown!.code, unknown!.detail);
  if (!shown.result.verified) return notJudged(base, 'not-verified', bare.printed);
  return { ...base, verdict: outcome };
}

type Shown = View & { readonly result: WayResult };

/** The worst outcome, among equal ones the smallest margin for its limit; null of none. */
function worst(views: readonly Shown[]): Shown | null {
  return views.reduce<Shown | null>((low, view) => {
    if (low === null) return view;
    const [a, b] = [rank(view.result), rank(low.result)];
    if (a !== b) return a < b ? view : low;
    return relative(view.result.figures[0]) < relative(low.result.figures[0]) ? view : low;
  }, null);
}

function relative(figure: Figure | undefined): number {
  if (figure === undefined) return Number.POSITIVE_INFINITY;
  return figure.limit === 0 ? figure.margin : figure.margin / Math.abs(figure.limit);
}

function viewOf(
  asked: Asked,
  moved: readonly MovedEvidence[],
  clause: Clause,
  factor: number,
): View {
  const ways = clause.anyOf.map((way) => wayResult(asked, moved, clause, way, factor));
  const verified = ways.filter((way) => way.verified);
  return { asked, computed: best(ways), judged: best(verified.length > 0 ? verified : ways) };
}

function best(ways: readonly WayResult[]): WayResult {
  return ways.reduce((first, way) => (rank(way) > rank(first) ? way : first));
}

function wayResult(
  asked: Asked,
  moved: readonly MovedEvidence[],
  clause: Clause,
  way: Way,
  factor: number,
): WayResult {
  const figures: Figure[] = [];
  let unknown: Unknown | null = null;
  for (const requirement of way.allOf) {
    const weighed = weigh(asked, moved, requirement, factor);
    if ('figure' in weighed) figures.push(weighed.figure);
    else unknown ??= weighed.unknown;
  }
  figures.sort(
    (a, b) => ORDER.indexOf(a.outcome) - ORDER.indexOf(b.outcome) || relative(a) - relative(b),
  );
  const worst = figures[0]?.outcome;
  const outcome = worst === 'not-met' || unknown === null ? worst! : 'unknown';
  // Who looked the clause up looked up its tables and ways too.
  const verified =
    typeof clause.provenance === 'object' ||
    ((way.provenance ?? clause.provenance) !== 'from-memory' &&
      figures.every((figure) => !figure.fromMemory));
  return { outcome, figures, unknown, verified };
}

/** Asked where the figure is under its number, or so near that nobody knows. */
function isCalledFor(
  asked: Asked,
  moved: readonly MovedEvidence[],
  when: NonNullable<Clause['when']>,
): boolean {
  const unit = UNIT_OF_WHEN;
  const weighed = weigh(
    asked,
    moved,
    {
      quantity: when.quantity,
      bound: 'at-least',
      limit: { kind: 'fixed', value: when.under, unit },
    },
    1,
  );
  return !('figure' in weighed) || weighed.figure.outcome !== 'met';
}

/** The number stands in the quantity's own unit already: nothing is converted. */
const UNIT_OF_WHEN = 'times';
