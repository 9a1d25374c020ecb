import type { CauseName } from './cause-names.ts';
import type { CauseEvidence } from './causes.ts';

/** What one cause would do to the states' heels, and to her roll. */
export interface CausePattern {
  readonly cause: CauseName;
  /** Tangent by state, per unit of its size; of the points' own order. */
  readonly column: readonly number[];
  /** Sign its size must have; 0: either. */
  readonly sign: -1 | 0 | 1;
  /** How many alike were looked at. */
  readonly places: number;
  /** Share of a state's stiffness that goes as the size does: 1 where she is held or softened. */
  readonly held: readonly number[] | null;
  /** States it is about. */
  readonly states: readonly number[];
  readonly weight: number | null;
  /** First state it stands from; null: the whole day. */
  readonly from: number | null;
  readonly side: 1 | -1 | null;
}

/** Where a line comes taut, a tank's liquid meets a wall: as shares of the largest heel to that side. Ours. */
const THRESHOLDS = [0.03, 0.12, 0.25, 0.4, 0.55];
/** Nearer to upright than this share of the largest heel she rolls to both sides alike. */
const UPRIGHT_SHARE = 0.05;
/** Share of what runs through a connection that is still to run when a state is read. Ours. */
const STILL_TO_RUN = [0.2, 0.4, 0.6, 0.8];

/** Every pattern of causes that act on the whole vessel. `heels`: tangent of each state less that at no moment. */
export function causePatterns(evidence: CauseEvidence, heels: readonly number[]): CausePattern[] {
  return [
    ...weightPatterns(evidence),
    ...statePatterns(heels.length),
    ...stepPatterns(heels.length),
    ...heldSidePatterns(heels),
    ...fromStatePatterns(heels),
    ...memoryPatterns(heels),
    driftPattern(evidence, heels.length),
  ];
}

const NOTHING = { sign: 0, held: null, states: [], weight: null, from: null, side: null } as const;

function weightPatterns({ weights }: CauseEvidence): CausePattern[] {
  const known = weights.flatMap(({ moments }, weight) => {
    const scale = Math.max(...moments.map(Math.abs));
    if (!(scale > 0)) return [];
    const column = moments.map((moment) => moment / scale);
    const states = moments.flatMap((moment, i) => (moment === 0 ? [] : [i]));
    return [{ weight, column, states }];
  });
  const cause = 'weight' as const;
  return known.map((one) => ({ ...NOTHING, cause, ...one, places: known.length }));
}

function statePatterns(count: number): CausePattern[] {
  return Array.from({ length: count }, (_, k) => ({
    ...{ ...NOTHING, cause: 'disturbed-state' as const, places: count, states: [k] },
    column: Array.from({ length: count }, (_one, i) => (i === k ? 1 : 0)),
  }));
}

function stepPatterns(count: number): CausePattern[] {
  return Array.from({ length: Math.max(0, count - 1) }, (_, k) => k + 1).map((from) => ({
    ...{ ...NOTHING, cause: 'moved' as const, places: count - 1, from },
    states: range(from, count),
    column: Array.from({ length: count }, (_one, i) => (i >= from ? 1 : 0)),
  }));
}

/** A line or fender, a wall that liquid meets, on one side or on both; a hull of two different sides. */
function heldSidePatterns(heels: readonly number[]): CausePattern[] {
  const sides = ([1, -1] as const).filter((side) => Math.max(...heels.map((h) => side * h)) > 0);
  const oneSided = sides.flatMap((side) => {
    const most = Math.max(...heels.map((heel) => side * heel));
    const beyond = (from: number) => heels.map((heel) => side * Math.max(0, side * heel - from));
    const of = (cause: CauseName, share: number, places: number): CausePattern => {
      const column = beyond(share * most);
      const held = column.map((one) => (Math.abs(one) > UPRIGHT_SHARE * most ? 1 : 0));
      const states = held.flatMap((one, i) => (one === 0 ? [] : [i]));
      return { ...NOTHING, cause, column, sign: -1, places, held, states, side };
    };
    const many = 2 * THRESHOLDS.length;
    return [
      ...THRESHOLDS.map((share) => of('line', share, many)),
      ...THRESHOLDS.map((share) => of('tank-wall', share, many)),
      of('hull-asymmetry', 0, 2),
    ];
  });
  if (sides.length < 2) return oneSided;
  const most = Math.min(...sides.map((side) => Math.max(...heels.map((heel) => side * heel))));
  return [
    ...oneSided,
    ...THRESHOLDS.map((share): CausePattern => {
      const column = heels.map((heel) =>
        Math.abs(heel) > share * most ? heel - Math.sign(heel) * share * most : 0,
      );
      const held = column.map((one) => (one === 0 ? 0 : 1));
      const places = THRESHOLDS.length;
      return { ...NOTHING, cause: 'tank-wall', column, sign: -1, places, held };
    }),
  ];
}

/** Held, or set free, from one state on. */
function fromStatePatterns(heels: readonly number[]): CausePattern[] {
  const count = heels.length;
  return range(1, count - 1).flatMap((from) => {
    const column = heels.map((heel, i) => (i >= from ? heel : 0));
    const held = heels.map((_, i) => (i >= from ? 1 : 0));
    const shared = { ...NOTHING, column, held, from, states: range(from, count) };
    const places = count - 2;
    return [
      { ...shared, cause: 'ground' as const, sign: -1 as const, places },
      { ...shared, cause: 'free-surface' as const, sign: 1 as const, places },
    ];
  });
}

/** What a state remembers of where she lay before: liquid still running to the low side. */
function memoryPatterns(heels: readonly number[]): CausePattern[] {
  return STILL_TO_RUN.map((share) => {
    let run = heels[0]!;
    const column = heels.map((heel) => {
      run = heel - share * (heel - run);
      return run - heel;
    });
    const places = STILL_TO_RUN.length;
    return { ...NOTHING, cause: 'cross-connection', column, sign: 1, places };
  });
}

function driftPattern({ timesS }: CauseEvidence, count: number): CausePattern {
  const column = timesS ?? range(0, count);
  return { ...NOTHING, cause: 'list-drift', column, places: 1 };
}

const range = (from: number, to: number) =>
  Array.from({ length: Math.max(0, to - from) }, (_, k) => from + k);
