import { Fault } from '../fault/fault.ts';
import { type GmProblem, solveGm } from './gm.ts';

/** GM without one state, or without one instrument. */
export interface LeftOut {
  readonly left: 'state' | 'instrument';
  /** Its place in the input. */
  readonly place: number;
  /** Null where nothing determines a line without it. */
  readonly gm: number | null;
  /** GM without it less GM with it. */
  readonly change: number | null;
}

/**
 * How much GM hangs on each state and on each instrument: solved again without it, instruments
 * and states weighing as before.
 */
export function leaveOneOut(problem: GmProblem): LeftOut[] {
  const whole = solveGm(problem);
  const ratio = whole.fit.varianceRatio;
  const without = (left: LeftOut['left'], place: number, rest: () => GmProblem): LeftOut => {
    try {
      const { gm } = solveGm(rest(), ratio);
      return { left, place, gm, change: gm - whole.gm };
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      return { left, place, gm: null, change: null };
    }
  };
  const instruments = problem.tangents[0]?.length ?? 0;
  return [
    ...problem.heelingMoments.map((_, k) =>
      without('state', k, () => withoutState(problem, whole.fit.fittedTangents, k)),
    ),
    ...Array.from({ length: instruments }, (_, j) =>
      without('instrument', j, () => withoutInstrument(problem, j)),
    ),
  ];
}

function withoutState(problem: GmProblem, fitted: readonly number[], k: number): GmProblem {
  const { excess, firstTangent, driftTimes, ...rest } = problem;
  const but = <T>(values: readonly T[]) => values.filter((_, i) => i !== k);
  const stepToSecond = (fitted[1] ?? 0) - (fitted[0] ?? 0);
  return {
    ...rest,
    heelingMoments: but(problem.heelingMoments),
    verticalMoments: but(problem.verticalMoments),
    tangents: but(problem.tangents),
    ...(excess === undefined
      ? {}
      : { excess: (tangent, state) => excess(tangent, state < k ? state : state + 1) }),
    ...(firstTangent === undefined
      ? {}
      : { firstTangent: k === 0 ? firstTangent + stepToSecond : firstTangent }),
    ...(driftTimes === undefined ? {} : { driftTimes: but(driftTimes) }),
  };
}

function withoutInstrument(problem: GmProblem, j: number): GmProblem {
  const { ownVariances, ...rest } = problem;
  const but = <T>(values: readonly T[]) => values.filter((_, i) => i !== j);
  return {
    ...rest,
    tangents: problem.tangents.map(but),
    ...(ownVariances === undefined ? {} : { ownVariances: but(ownVariances) }),
  };
}
