import { uncertainHalfWidth95 } from '../numerics/coverage.ts';
import { studentTCumulative } from '../numerics/student-t.ts';
import { type Contribution, uncertainFromContributions } from '../quantity/uncertainty.ts';
import type { Known, NoteCode, Unknown } from './answer.ts';
import type { Asked } from './asked.ts';
import type { ConditionEvidence } from './evidence.ts';
import { limitAnswer } from './limit-value.ts';
import { quantityAnswers } from './quantity-value.ts';
import type { Dimension, Quantity } from './rule-quantity.ts';
import { DIMENSION_OF } from './rule-quantity.ts';
import type { Requirement } from './rule-set.ts';

/** How a clause comes out. The wrong side of a limit is always `not-met`. */
export type Outcome = 'met' | 'met-within-uncertainty' | 'not-met';

/** One figure beside its limit, in m, m rad, degrees or times; positive margin: the right side. */
export interface Figure {
  readonly quantity: Quantity['kind'];
  readonly dimension: Dimension;
  readonly bound: Requirement['bound'];
  readonly value: number;
  readonly limit: number;
  readonly margin: number;
  /** Half the 95 % interval of the margin by Student's t; null where nothing is known of it. */
  readonly expandedUncertainty: number | null;
  /** Probability that the true margin is on the right side; null where nothing is known of it. */
  readonly chance: number | null;
  readonly note: NoteCode | null;
  readonly fromMemory: boolean;
  readonly outcome: Outcome;
}

export type Weighed = { readonly figure: Figure } | { readonly unknown: Unknown };

/** The causes of uncertainty of one condition, each moved up and down once, shared by all clauses. */
export interface MovedEvidence {
  readonly cause: string;
  readonly degreesOfFreedom: number;
  readonly up: ConditionEvidence;
  readonly down: ConditionEvidence;
}

export function movedOf(evidence: ConditionEvidence): readonly MovedEvidence[] {
  return evidence.causes.map((one) => ({
    cause: one.cause,
    degreesOfFreedom: one.degreesOfFreedom,
    up: one.moved(1),
    down: one.moved(-1),
  }));
}

interface Measure {
  readonly answer: Known;
  readonly limit: Known;
  readonly margin: number;
}

/**
 * A requirement weighed: value, limit, margin and the margin's expanded uncertainty (GUM, JCGM
 * 100:2008, 5.1.3 note 2: each cause moved by one standard uncertainty both ways). Several moments of one
 * kind: the one with the least margin. `times` is the clause's factor on the limit.
 */
export function weigh(
  asked: Asked,
  moved: readonly MovedEvidence[],
  of: Requirement,
  times: number,
): Weighed {
  const here = measured(asked, of, times);
  if ('unknown' in here) return here;
  const { answer, limit, margin } = here;
  const spread = asked.evidence.uncertaintyKnown ? spreadOf(asked, moved, of, times, margin) : null;
  const right = rightSide(of.bound, margin) && !NEVER.has(answer.note ?? '');
  if (!right && answer.atLeast)
    return { unknown: { known: false, code: 'levers-too-short', detail: of.quantity.kind } };
  const within = spread !== null && margin < spread.expandedUncertainty;
  return {
    figure: {
      quantity: of.quantity.kind,
      dimension: DIMENSION_OF[of.quantity.kind],
      bound: of.bound,
      value: answer.value,
      limit: limit.value,
      margin,
      expandedUncertainty: spread?.expandedUncertainty ?? null,
      chance: spread?.chance ?? null,
      note: answer.note,
      fromMemory: answer.fromMemory || limit.fromMemory,
      outcome: right ? (within ? 'met-within-uncertainty' : 'met') : 'not-met',
    },
  };
}

/** With these there is nothing on the right side, whatever the number. */
const NEVER: ReadonlySet<string> = new Set<NoteCode>(['no-rest', 'floods-before']);

function rightSide(bound: Requirement['bound'], margin: number): boolean {
  return bound === 'above' || bound === 'below' ? margin > 0 : margin >= 0;
}

function measured(
  asked: Asked,
  of: Requirement,
  times: number,
): Measure | { readonly unknown: Unknown } {
  const stops = 'stops' in of.quantity ? of.quantity.stops : null;
  const limit = limitAnswer(asked, of.limit, stops);
  let worst: Measure | null = null;
  for (const answer of quantityAnswers(asked, of.quantity)) {
    if (!answer.known) return { unknown: answer };
    if (!limit.known) return { unknown: limit };
    const upward = of.bound === 'at-least' || of.bound === 'above';
    const scaled = upward ? { ...limit, value: limit.value * times } : limit;
    const margin = upward ? answer.value - scaled.value : scaled.value - answer.value;
    if (worst === null || margin < worst.margin) worst = { answer, limit: scaled, margin };
  }
  return worst ?? { unknown: { known: false, code: 'moment-not-given', detail: of.quantity.kind } };
}

function spreadOf(
  asked: Asked,
  moved: readonly MovedEvidence[],
  of: Requirement,
  times: number,
  margin: number,
): { readonly expandedUncertainty: number; readonly chance: number } | null {
  const contributions: Contribution[] = [];
  for (const { cause, degreesOfFreedom, up, down } of moved) {
    const above = measured({ ...asked, evidence: up }, of, times);
    const below = measured({ ...asked, evidence: down }, of, times);
    if ('unknown' in above || 'unknown' in below) return null;
    // First and second order: at a summit the difference alone would look certain.
    const standardUncertainty = Math.hypot(
      (above.margin - below.margin) / 2,
      (above.margin + below.margin - 2 * margin) / Math.SQRT2,
    );
    contributions.push({ cause, standardUncertainty, degreesOfFreedom });
  }
  if (contributions.length === 0) return { expandedUncertainty: 0, chance: margin >= 0 ? 1 : 0 };
  const together = uncertainFromContributions(margin, contributions);
  const { standardUncertainty, degreesOfFreedom } = together;
  if (standardUncertainty === 0) return { expandedUncertainty: 0, chance: margin >= 0 ? 1 : 0 };
  return {
    expandedUncertainty: uncertainHalfWidth95(together),
    chance: studentTCumulative(margin / standardUncertainty, degreesOfFreedom),
  };
}
