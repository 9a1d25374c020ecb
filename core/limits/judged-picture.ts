import { conditionKg } from '../condition/condition-uncertainty.ts';
import { uncertainHalfWidth95 } from '../numerics/coverage.ts';
import { degreesFromRadians } from '../quantity/angle.ts';
import {
  conditionEvidence,
  type EvidenceQuestion,
  type FloatingEvidence,
} from '../stability/condition-evidence.ts';
import {
  type ConditionKind,
  OPENING_STATES,
  type OpeningState,
  SIDES,
  type Side,
} from '../stability/evidence.ts';
import type { ClauseVerdict } from '../stability/judge-clause.ts';
import {
  countsAsMet,
  judgeCondition,
  type SetVerdict,
  type Signed,
} from '../stability/judge-condition.ts';
import type { RuleSet } from '../stability/rule-set.ts';

/** One side of a lever curve as it is drawn; heels in degrees to that side. */
export interface PictureSide {
  readonly side: Side;
  readonly heelsDeg: readonly number[];
  readonly leversM: readonly number[];
  readonly deckEdgeDeg: number | null;
  readonly floodsDeg: Readonly<Record<OpeningState, number | null>>;
}

/** One condition worked out and judged, as plain data. */
export interface JudgedPicture {
  readonly condition: string;
  readonly kind: ConditionKind;
  readonly displacementT: number;
  readonly kgM: number;
  /** Half its 95 % interval; null where nothing is known of it. */
  readonly kgHalfWidth95M: number | null;
  readonly gmFluidM: number;
  readonly meanDraughtM: number;
  /** Positive by the stern. */
  readonly trimM: number;
  readonly leastFreeboardM: number;
  /** Starboard positive; null where she finds no rest. */
  readonly listDeg: number | null;
  readonly sides: readonly PictureSide[];
  readonly sets: readonly SetVerdict[];
  readonly answer: Answer;
}

/**
 * What the clauses come to together. `not-met`: one does not count as met. `nothing-judged`: no
 * clause could be judged. `met`: all that could be judged count as met, and so many could not.
 */
export interface Answer {
  readonly outcome: 'met' | 'not-met' | 'nothing-judged';
  /** The clause that governs: the first not counted as met, else the one with the least in hand. */
  readonly governs: ClauseVerdict | null;
  readonly judged: number;
  readonly notJudged: number;
}

export interface Judging {
  readonly sets: readonly RuleSet[];
  readonly signed: readonly Signed[];
}

const STEP_DEG = 2;
const MOST_DEG = 90;

/** Works a condition out, both sides, and judges it. Throws what `conditionEvidence` throws. */
export function judgedPicture(question: EvidenceQuestion, judging: Judging): JudgedPicture {
  const evidence = conditionEvidence(question);
  const sets = judgeCondition(judging.sets, evidence);
  const { listRad } = evidence;
  const kg = conditionKg(question.loaded);
  return {
    condition: evidence.name,
    kind: evidence.kind,
    displacementT: evidence.displacementT,
    kgM: evidence.kgM,
    kgHalfWidth95M: kg === null ? null : uncertainHalfWidth95(kg),
    gmFluidM: evidence.gmFluidM('exact'),
    meanDraughtM: evidence.meanDraughtM,
    trimM: evidence.trimM,
    leastFreeboardM: evidence.leastFreeboardM,
    listDeg: listRad === null ? null : degreesFromRadians(listRad),
    sides: SIDES.map((side) => sideOf(evidence, side)),
    sets,
    answer: answerOf(sets, judging.signed),
  };
}

function sideOf(evidence: FloatingEvidence, side: Side): PictureSide {
  const levers = evidence.levers(side, 'exact');
  const mostDeg = Math.min(MOST_DEG, degreesFromRadians(levers.mostHeelRad));
  const heelsDeg: number[] = [];
  for (let deg = 0; deg < mostDeg; deg += STEP_DEG) heelsDeg.push(deg);
  heelsDeg.push(mostDeg);
  const deck = evidence.deckEdgeRad(side);
  const floods = (opened: OpeningState) => {
    const rad = evidence.downfloodingRad(side, opened);
    return rad === null ? null : degreesFromRadians(rad);
  };
  return {
    side,
    heelsDeg,
    leversM: heelsDeg.map((deg) =>
      levers.leverM(Math.min((deg * Math.PI) / 180, levers.mostHeelRad)),
    ),
    deckEdgeDeg: deck === null ? null : degreesFromRadians(deck),
    floodsDeg: Object.fromEntries(OPENING_STATES.map((state) => [state, floods(state)])) as Record<
      OpeningState,
      number | null
    >,
  };
}

/** All verdicts of a condition in one answer. */
export function answerOf(sets: readonly SetVerdict[], signed: readonly Signed[]): Answer {
  const clauses = sets.flatMap((set) => set.clauses);
  const judged = clauses.filter((one) => countsAsMet(one, signed) !== null);
  const against = judged.filter((one) => countsAsMet(one, signed) === false);
  const notJudged = clauses.filter((one) => one.verdict === 'not-judged').length;
  const governs = [...(against.length > 0 ? against : judged)].sort(
    (a, b) => inHandShare(a) - inHandShare(b),
  )[0];
  return {
    outcome: against.length > 0 ? 'not-met' : judged.length > 0 ? 'met' : 'nothing-judged',
    governs: governs ?? null,
    judged: judged.length,
    notJudged,
  };
}

/** Margin of the worst figure as a share of its limit. */
function inHandShare({ figures }: ClauseVerdict): number {
  const worst = figures[0];
  if (worst === undefined) return Number.POSITIVE_INFINITY;
  return worst.limit === 0 ? worst.margin : worst.margin / Math.abs(worst.limit);
}
