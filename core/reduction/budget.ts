import {
  type Contribution,
  type Uncertain,
  uncertainFromContributions,
} from '../quantity/uncertainty.ts';
import { type GmProblem, type GmSolution, lineReadingsOf, solveGm } from './gm.ts';
import type { LineReadings } from './line-model.ts';
import { learnedOwnVariances } from './own-variances.ts';
import { tangentScaled } from './scale.ts';
import { type InstrumentScale, scaleErrors } from './scale-errors.ts';

/** What is known of the measured things besides the scatter of the states. All standard uncertainties. */
export interface Causes {
  readonly displacementUncertainty: number;
  readonly km: { readonly value: number; readonly standardUncertainty: number } | null;
  readonly metacentreMovementUncertainty: number;
  /**
   * One cause that moves displacement, KM and c2 together, as a draught read wrongly does: what one
   * standard uncertainty of it adds to each, with sign.
   */
  readonly together: readonly {
    readonly cause: string;
    readonly displacement: number;
    readonly km: number;
    readonly metacentreMovement: number;
    /** Left out: not limited by a count. Entries of one name are independent parts of one cause. */
    readonly degreesOfFreedom?: number | undefined;
  }[];
  /** Of the first state's tangent where it is given. */
  readonly firstTangentUncertainty?: number;
  /** Weights moved; `moved[state]` is the way each has come since the first state. */
  readonly weights: readonly {
    readonly weight: string;
    readonly mass: number;
    readonly massUncertainty: number;
    readonly moved: readonly { readonly y: number; readonly z: number }[];
  }[];
  /** Relative, of one balance that weighed all of them. */
  readonly massScaleUncertainty: number;
  /** Of every distance moved, one tape and one way of measuring being common to all. */
  readonly distanceUncertainty: number;
  /** Relative, of all moments together, where they are given as they are. */
  readonly momentScaleUncertainty: number;
  readonly instruments: readonly InstrumentScale[];
  /** Relative, of the angle scale all instruments share. */
  readonly angleScaleUncertainty: number;
}

/** The row of what the readings themselves scatter. */
export const SCATTER_OF_STATES = 'scatter of the states';

export interface BudgetRow {
  readonly cause: string;
  /** Standard uncertainty it alone gives to GM, and to KG where KM is known. */
  readonly gm: number;
  readonly kg: number | null;
  readonly degreesOfFreedom: number;
  /** The same with sign, of each independent part; empty for the scatter of the states. */
  readonly parts: readonly { readonly gm: number; readonly kg: number }[];
  /** Does it reach GM by way of the displacement alone, so that displacement times GM is free of it? */
  readonly byDisplacement: boolean;
}

export interface Answer {
  readonly gm: Uncertain;
  /** KM less fluid GM: a virtual KG that has the tanks' free surface in it. */
  readonly kg: Uncertain | null;
  /** Displacement times GM: what the line alone gives. */
  readonly stiffness: Uncertain;
  /** Largest first. */
  readonly budget: readonly BudgetRow[];
  readonly solution: GmSolution;
  /** What was solved, the instruments weighing as learned. */
  readonly problem: GmProblem;
  /** The readings the line was fitted to, the instruments weighing as they did. */
  readonly readings: LineReadings;
}

/**
 * GM and KG with an uncertainty after the GUM (JCGM 100:2008, 5.1 and G.4): every cause is moved
 * by one standard uncertainty to both sides and GM solved again with the states weighed as before;
 * causes are independent of each other. Instruments that scatter unalike weigh unalike. The scatter of the states brings its degrees of freedom;
 * the others count as known from elsewhere.
 */
export function answerWithBudget(asked: GmProblem, causes: Causes): Answer {
  const ownVariances =
    asked.ownVariances ??
    learnedOwnVariances({ moments: asked.heelingMoments, tangents: asked.tangents });
  const problem = ownVariances === undefined ? asked : { ...asked, ownVariances };
  const solution = solveGm(problem);
  const rows = [statesRow(problem, solution), ...causeRows(problem, causes, solution)].sort(
    (left, right) => (right.kg ?? right.gm) - (left.kg ?? left.gm),
  );
  const contributions = (of: (row: BudgetRow) => number, among = rows): Contribution[] =>
    among.map((row) => ({
      cause: row.cause,
      standardUncertainty: of(row),
      degreesOfFreedom: row.degreesOfFreedom,
    }));
  const ofLine = rows.filter((row) => !row.byDisplacement);
  const budget = causes.km === null ? rows.map((row) => ({ ...row, kg: null })) : rows;
  return {
    gm: uncertainFromContributions(
      solution.gm,
      contributions((row) => row.gm),
    ),
    kg:
      causes.km === null
        ? null
        : uncertainFromContributions(
            causes.km.value - solution.gm,
            contributions((row) => row.kg!),
          ),
    stiffness: uncertainFromContributions(
      problem.displacement * solution.gm,
      contributions((row) => problem.displacement * row.gm, ofLine),
    ),
    budget,
    solution,
    problem,
    readings: lineReadingsOf(problem, solution.momentsFitted),
  };
}

/** The scatter of the states. Where c2 bends the line, a heel counts a little more or less than on it. */
function statesRow(problem: GmProblem, solution: GmSolution): BudgetRow {
  const { slope } = solution.fit;
  const straight: GmProblem = {
    ...problem,
    heelingMoments: solution.momentsFitted,
    verticalMoments: problem.heelingMoments.map(() => 0),
    metacentreMovement: 0,
    excess: () => 0,
  };
  const bent =
    solution.momentsFitted === problem.heelingMoments
      ? 1
      : sensitivityToStates(problem, solution) / sensitivityToStates(straight, solution);
  const gm = bent * solution.gm * (slope.standardUncertainty / slope.value);
  return {
    cause: SCATTER_OF_STATES,
    gm,
    kg: gm,
    degreesOfFreedom: slope.degreesOfFreedom,
    parts: [],
    byDisplacement: false,
  };
}

/** Root of the sum of squares of what a small heel added to one state does to GM. */
function sensitivityToStates(problem: GmProblem, near: GmSolution): number {
  const { varianceRatio } = near.fit;
  const step = 1e-5;
  const shifted = (state: number, by: number): number => {
    const tangents = problem.tangents.map((row, i) =>
      i === state ? row.map((tangent) => (tangent === null ? null : tangent + by)) : row,
    );
    return solveGm({ ...problem, tangents }, varianceRatio, near).gm;
  };
  return Math.hypot(
    ...problem.tangents.map((_, state) => (shifted(state, step) - shifted(state, -step)) / 2),
  );
}

type Moved = { problem: GmProblem; km: number };

function causeRows(problem: GmProblem, causes: Causes, near: GmSolution): BudgetRow[] {
  const ratio = near.fit.varianceRatio;
  const rows: BudgetRow[] = [];
  const add = (
    cause: string,
    move: (sign: 1 | -1) => Moved,
    degreesOfFreedom = Number.POSITIVE_INFINITY,
  ): void => {
    const up = move(1);
    const down = move(-1);
    const gm = (solveGm(up.problem, ratio, near).gm - solveGm(down.problem, ratio, near).gm) / 2;
    const signedKg = (up.km - down.km) / 2 - gm;
    const kg = Math.abs(signedKg);
    const byDisplacement = up.problem.displacement !== problem.displacement;
    const parts = [{ gm, kg: signedKg }];
    const part = { cause, gm: Math.abs(gm), kg, degreesOfFreedom, parts, byDisplacement };
    const same = rows.findIndex((row) => row.cause === cause);
    if (same < 0) rows.push(part);
    else rows[same] = partsTogether(rows[same]!, part);
  };
  const changed = (part: Partial<GmProblem>, km = 0): Moved => ({
    problem: { ...problem, ...part },
    km,
  });
  add('displacement', (sign) =>
    changed({ displacement: problem.displacement + sign * causes.displacementUncertainty }),
  );
  if (causes.km !== null) {
    const { standardUncertainty } = causes.km;
    add('KM', (sign) => changed({}, sign * standardUncertainty));
  }
  for (const one of causes.together) {
    const { degreesOfFreedom } = one;
    const move = (sign: 1 | -1) =>
      changed(
        {
          displacement: problem.displacement + sign * one.displacement,
          metacentreMovement: problem.metacentreMovement + sign * one.metacentreMovement,
        },
        sign * one.km,
      );
    add(one.cause, move, degreesOfFreedom);
  }
  if (problem.firstTangent !== undefined) {
    const firstTangent = problem.firstTangent;
    const by = causes.firstTangentUncertainty ?? 0;
    add('list of the first state', (sign) => changed({ firstTangent: firstTangent + sign * by }));
  }
  add("metacentre's movement", (sign) =>
    changed({
      metacentreMovement: problem.metacentreMovement + sign * causes.metacentreMovementUncertainty,
    }),
  );
  addMomentRows(problem, causes, (cause, part) => add(cause, (sign) => changed(part(sign))));
  addScaleRows(problem, causes, (cause, part) => add(cause, (sign) => changed(part(sign))));
  return rows.filter((row) => row.gm !== 0 || row.kg !== 0);
}

/** Independent parts of one cause as one row. */
function partsTogether(left: BudgetRow, right: BudgetRow): BudgetRow {
  return {
    ...left,
    gm: Math.hypot(left.gm, right.gm),
    kg: Math.hypot(left.kg ?? 0, right.kg ?? 0),
    parts: [...left.parts, ...right.parts],
    byDisplacement: left.byDisplacement && right.byDisplacement,
  };
}

type AddRow = (cause: string, part: (sign: 1 | -1) => Partial<GmProblem>) => void;

function addMomentRows(problem: GmProblem, causes: Causes, add: AddRow): void {
  const { heelingMoments, verticalMoments } = problem;
  const scaled = (by: number): Partial<GmProblem> => ({
    heelingMoments: heelingMoments.map((moment) => moment * by),
    verticalMoments: verticalMoments.map((moment) => moment * by),
  });
  for (const weight of causes.weights) {
    add(`mass of ${weight.weight}`, (sign) => {
      const by = sign * weight.massUncertainty;
      return {
        heelingMoments: heelingMoments.map((moment, i) => moment + by * weight.moved[i]!.y),
        verticalMoments: verticalMoments.map((moment, i) => moment + by * weight.moved[i]!.z),
      };
    });
  }
  add('scale of the balance', (sign) => scaled(1 + sign * causes.massScaleUncertainty));
  add('scale of the moments', (sign) => scaled(1 + sign * causes.momentScaleUncertainty));
  add('distances moved', (sign) => ({
    heelingMoments: heelingMoments.map((moment, i) =>
      causes.weights.reduce(
        (sum, { mass, moved }) =>
          sum + sign * mass * Math.sign(moved[i]!.y) * causes.distanceUncertainty,
        moment,
      ),
    ),
  }));
}

function addScaleRows(problem: GmProblem, causes: Causes, add: AddRow): void {
  const scaled = (by: number, of: (instrument: number) => number): Partial<GmProblem> => ({
    tangents: problem.tangents.map((row) =>
      row.map((tangent, j) =>
        tangent === null || of(j) === 0
          ? tangent
          : tangentScaled(tangent, 1 + by * of(j), causes.instruments[j]!.space),
      ),
    ),
  });
  for (const { cause, shareOf } of scaleErrors(causes.instruments)) {
    add(cause, (sign) => scaled(sign, shareOf));
  }
  add('angle scale of all instruments', (sign) =>
    scaled(sign * causes.angleScaleUncertainty, () => 1),
  );
}
