import { fBeyond } from '../numerics/f-distribution.ts';
import { type ClaimedScatter, PointsRest, supportOf } from './cause-fit.ts';
import {
  believedFreedom,
  type InstrumentFinding,
  instrumentFindings,
} from './cause-instruments.ts';
import { CAUSES, type CauseName } from './cause-names.ts';
import { type CausePattern, causePatterns } from './cause-patterns.ts';
import { rollSupport, type StatePeriod } from './cause-roll.ts';
import { type CauseTrace, traceSupport } from './cause-traces.ts';
import { instrumentEvidence, patternEvidence, scatterEvidence } from './cause-words.ts';
import type { ShapeName } from './shape.ts';

/** All that speaks for one cause or another. States, instruments and weights by their place. */
export interface CauseEvidence {
  /** As fitted: rise and the metacentre's movement taken out. */
  readonly moments: readonly number[];
  readonly tangents: readonly (readonly (number | null)[])[];
  /** Slope of the line. */
  readonly tangentPerMoment: number;
  readonly stateNames: readonly string[];
  readonly instrumentNames: readonly string[];
  readonly weights: readonly {
    readonly weight: string;
    readonly moments: readonly number[];
    /** How far it was carried across at most; null where only moments are known. */
    readonly distance: number | null;
  }[];
  /** Middle of each reading; null where times are not known. */
  readonly timesS: readonly number[] | null;
  /** Standard error a state's reading claims for itself, tangent; null where none does. */
  readonly claimedTangent: number | null;
  readonly shapes: readonly { readonly shape: string; readonly seen: boolean }[];
  readonly periods: readonly StatePeriod[];
  readonly traces: readonly CauseTrace[];
  /** Of the repeated states' disagreement by chance; null where none was read again. */
  readonly repeatsProbability: number | null;
}

/** One thing that speaks for a cause or against it. */
export interface CauseReason {
  readonly from: 'plot' | 'instruments' | 'roll' | 'traces' | 'repeats';
  readonly speaksFor: boolean;
  readonly words: string;
}

export interface Cause {
  readonly cause: CauseName;
  /** What it would be, with place and size. */
  readonly words: string;
  readonly todo: string;
  /** Natural logarithm of how much better all evidence is explained by it than by nothing. */
  readonly support: number;
  readonly evidence: readonly CauseReason[];
  readonly states: readonly number[];
  readonly instrument: number | null;
  readonly weight: number | null;
}

/** All ours. Under the least nothing is named; what is so far behind the likeliest is not either. */
const LEAST_SUPPORT = 4.5;
const MOST_BEHIND = 14;
const MOST_NAMED = 4;
/** A state's reading is not claimed to be better than this, marks and people included: 0.003 degree. */
const LEAST_CLAIM = 0.003 * (Math.PI / 180);
/** Where no reading claims anything: 0.006 degree. */
const NO_CLAIM = 0.006 * (Math.PI / 180);
const FEWEST_STATES = 5;
/** Freedom of all readings' claims together, for what scatters without an order. */
const CLAIMS_TOGETHER = 12;

/**
 * What may be wrong, the likeliest first, each with what speaks for it: how well it explains the
 * points, her roll, what the instruments say of each other, what was rejected while waiting. From
 * the points alone only shapes follow; a cause whose evidence stays under the least is not named.
 */
export function causesOf(evidence: CauseEvidence): Cause[] {
  if (evidence.moments.length < FEWEST_STATES) return [];
  const byInstrument = instrumentFindings(evidence)
    .map((one) => withTraces(evidence, one))
    .filter(({ support }) => support >= LEAST_SUPPORT);
  const points = soundPoints(evidence, byInstrument);
  const all = [
    ...byInstrument.map((one) => instrumentEvidence(evidence, one)),
    ...vesselCauses(evidence, points),
  ].sort((left, right) => right.support - left.support);
  const most = all[0]?.support ?? 0;
  return all
    .filter(({ support }) => support >= LEAST_SUPPORT && support >= most - MOST_BEHIND)
    .slice(0, MOST_NAMED);
}

function withTraces(evidence: CauseEvidence, one: InstrumentFinding) {
  const told = traceSupport(one.cause, evidence.traces, one.state, one.instrument);
  const beforehand = CAUSES[one.cause].beforehand;
  return { ...one, traces: told.traces, support: one.support + told.support + beforehand };
}

/** Mean of each state's instruments, each less its own level; what is found wrong in one left out. */
function soundPoints(
  { tangents, instrumentNames, moments }: CauseEvidence,
  wrong: readonly InstrumentFinding[],
): number[] {
  const most = wrong.reduce<InstrumentFinding | null>(
    (a, b) => (a === null || b.support > a.support ? b : a),
    null,
  );
  const sound = instrumentNames.map(
    (_, j) => instrumentNames.length === 2 || j !== most?.instrument,
  );
  const levels = instrumentNames.map((_, j) => {
    const own = tangents.flatMap((row, i) =>
      row[j] == null ? [] : [{ y: row[j], x: moments[i]! }],
    );
    return own.length === 0 ? 0 : own.reduce((sum, { y }) => sum + y, 0) / own.length;
  });
  return tangents.map((row) => {
    const kept = row.flatMap((one, j) => (one === null || !sound[j] ? [] : [one - levels[j]!]));
    const any =
      kept.length > 0 ? kept : row.flatMap((one, j) => (one === null ? [] : [one - levels[j]!]));
    return any.reduce((sum, one) => sum + one, 0) / any.length;
  });
}

function vesselCauses(evidence: CauseEvidence, points: readonly number[]): Cause[] {
  const count = points.length;
  const level = points.map(() => 1);
  const rest = new PointsRest(points, [level, evidence.moments]);
  const claimed = {
    deviation: Math.max(evidence.claimedTangent ?? NO_CLAIM, LEAST_CLAIM),
    freedom: believedFreedom(evidence.claimedTangent),
  };
  const heels = evidence.moments.map((moment) => moment * evidence.tangentPerMoment);
  const judged = causePatterns(evidence, heels).flatMap((pattern) => {
    const fit = rest.with(pattern.column);
    if (fit === null || fit.size * pattern.sign < 0) return [];
    const plot = supportOf(fit, count, claimed, pattern.places);
    const roll = rollSupport(evidence.periods, stiffnessOf(pattern, fit.size));
    const place = pattern.from ?? (pattern.states.length === 1 ? pattern.states[0]! : null);
    const told = traceSupport(pattern.cause, evidence.traces, place, null);
    const shape = shapeSeen(evidence, pattern.cause);
    const shown = shape === null ? 0 : SHAPE_SEEN;
    const support = plot + (roll ?? 0) + told.support + shown + beforehandOf(pattern);
    return [{ pattern, fit, plot, roll, told, shape, support }];
  });
  const names = [...new Set(judged.map(({ pattern }) => pattern.cause))];
  const best = names.map((name) =>
    judged
      .filter(({ pattern }) => pattern.cause === name)
      .reduce((a, b) => (b.support > a.support ? b : a)),
  );
  const scatter = scatterCause(evidence, rest, claimed);
  return [
    ...best.map((one) => patternEvidence(evidence, one)),
    ...(scatter === null ? [] : [scatter]),
  ];
}

/** A shape that is seen speaks for what makes it, by so much. Ours. */
const SHAPE_SEEN = 2;
const SHAPES_MADE: Partial<Record<CauseName, readonly ShapeName[]>> = {
  weight: ['moment of one weight', 'one state off'],
  'disturbed-state': ['one state off'],
  moved: ['a step'],
  line: ['one side short'],
  'tank-wall': ['one side short', 'a curve'],
  'hull-asymmetry': ['one side short'],
};

function shapeSeen({ shapes }: CauseEvidence, cause: CauseName): string | null {
  const made: readonly string[] = SHAPES_MADE[cause] ?? [];
  return shapes.find(({ shape, seen }) => seen && made.includes(shape))?.shape ?? null;
}

/** Held in one state alone she lies as if that state were off for any reason: her roll must tell it. */
const HELD_IN_ONE_STATE = -2.5;

function beforehandOf({ cause, held, column }: CausePattern): number {
  const most = Math.max(...column.map(Math.abs));
  const inOne = held !== null && column.filter((one) => Math.abs(one) > most / 20).length === 1;
  return CAUSES[cause].beforehand + (inOne ? HELD_IN_ONE_STATE : 0);
}

/** Share by which a pattern of this size makes her stiffer, by state. */
function stiffnessOf({ held }: CausePattern, size: number): number[] {
  if (held === null) return [];
  return held.map((one) => (one === 0 ? 0 : 1 / Math.max(0.05, 1 + one * size) - 1));
}

/** States that scatter by more than they claim, without an order: the wind. */
function scatterCause(
  evidence: CauseEvidence,
  { rest, count }: PointsRest,
  { deviation: claimed }: ClaimedScatter,
): Cause | null {
  if (evidence.claimedTangent === null) return null;
  const f = rest / (count - 2) / claimed ** 2;
  const probability = fBeyond(f, count - 2, CLAIMS_TOGETHER);
  const told = traceSupport('wind', evidence.traces, null, null);
  const support = chanceSupport(probability) + told.support + CAUSES.wind.beforehand;
  return scatterEvidence(evidence, { rest, count, claimed, told, support });
}

/** Most that a probability by chance says for anything else: -1/(e p ln p) (Sellke, Bayarri, Berger 2001, from memory). */
function chanceSupport(probability: number): number {
  if (probability >= 1 / Math.E) return 0;
  const p = Math.max(probability, 1e-300);
  return -Math.log(-Math.E * p * Math.log(p));
}
