import { answersOf, attempt } from './headline.ts';
import type { SessionState } from './session.ts';
import { dayRows } from './session-rows.ts';

/** What a pocket calculator needs to come to the classical GM by itself. */
export interface HandCheck {
  readonly displacementT: number;
  /** Moment of each state with the weights' own rise taken out, and the mean tangent of its instruments. */
  readonly rows: readonly {
    readonly state: number;
    readonly momentTM: number;
    readonly tangent: number;
  }[];
  readonly sums: {
    readonly moment: number;
    readonly tangent: number;
    readonly momentSquared: number;
    readonly momentTangent: number;
  };
  /** Tangent per t·m by plain least squares, every state counting alike. */
  readonly slopePerTM: number;
  /** Fluid GM by that slope, and the classical answer with its instruments weighed; m. */
  readonly gmM: number;
  readonly classicalGmM: number;
}

/**
 * Null while there is no line. Every state counts alike here, whatever instruments read it. Where
 * the hull gives the displacement, `byHull` has it and the classical GM that goes with it.
 */
export function handCheck(
  session: SessionState,
  byHull: { readonly displacementT: number; readonly classicalGmM: number } | null = null,
): HandCheck | null {
  const { test } = session;
  if (test === null) return null;
  const { rows, used } = dayRows(session);
  const { answers } = attempt(() => answersOf(session, test, rows, used));
  if (answers === null) return null;
  const displacementT = byHull?.displacementT ?? test.particulars.displacementT;
  const { fit, momentsFitted } = answers.classical.solution;
  const lines = rows.map(({ state }, k) => ({
    state,
    momentTM: momentsFitted[k]!,
    tangent: fit.stateTangents[k]!,
  }));
  const sum = (of: (row: (typeof lines)[number]) => number) =>
    lines.reduce((total, row) => total + of(row), 0);
  const sums = {
    moment: sum(({ momentTM }) => momentTM),
    tangent: sum(({ tangent }) => tangent),
    momentSquared: sum(({ momentTM }) => momentTM ** 2),
    momentTangent: sum(({ momentTM, tangent }) => momentTM * tangent),
  };
  const n = lines.length;
  const slopePerTM =
    (n * sums.momentTangent - sums.moment * sums.tangent) /
    (n * sums.momentSquared - sums.moment ** 2);
  return {
    displacementT,
    rows: lines,
    sums,
    slopePerTM,
    gmM: 1 / (displacementT * slopePerTM),
    classicalGmM: byHull?.classicalGmM ?? answers.classical.gm.value,
  };
}
