import { Fault } from '../fault/fault.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import { contributionsTogether } from '../quantity/uncertainty.ts';
import type { StopTarget, TestOpened } from '../record/line.ts';
import { answerWithBudget, SCATTER_OF_STATES } from '../reduction/budget.ts';
import { type MoveOfWeight, momentsOfMoves } from '../shift/moment.ts';
import { headlineGm } from './headline.ts';
import { repeatedStates } from './repeated-states.ts';
import type { SessionState } from './session.ts';
import { causesOfTest } from './session-answer.ts';
import { dayInstruments } from './session-rows.ts';
import { shiftsBegun } from './shifts-begun.ts';

/** Before any instrument is known: one without an error of scale. */
const EXACT = { instrument: 'none yet', scaleUncertainty: 0, space: 'tangent' } as const;
/** The angles' part of the uncertainty of KG is to be under this part of all the rest. */
const PART_OF_REST = 1 / 3;
/** Neither finer than instruments of this kind can be, nor so coarse that a heel means little. Ours. */
export const FINEST_TARGET_DEG = 0.002;
export const COARSEST_TARGET_DEG = 0.03;

/**
 * The standard error of heel at which the angles' share of KG's uncertainty is a third of all the
 * rest, over the states read and those planned, at the GM of the line so far or the guess; or the
 * fixed one the test asks for. Null: no test, or nothing is planned to move.
 */
export function stopTarget(session: SessionState): StopTarget | null {
  const { test } = session;
  if (test === null) return null;
  const moments = momentsOfMoves(test.weights, movesOfDay(session, test));
  const gmM = headlineGm(session).gmFluidM?.value ?? test.particulars.gmGuessM;
  const { displacementT } = test.particulars;
  const mean = moments.reduce((sum, one) => sum + one.heelingMomentTM, 0) / moments.length;
  const spread = Math.sqrt(
    moments.reduce((sum, one) => sum + (one.heelingMomentTM - mean) ** 2, 0),
  );
  if (!(spread > 0) || !(gmM > 0)) return null;
  const restM = restOf(session, test, moments, gmM);
  if (restM === null) return null;
  const mPerDeg = radiansFromDegrees((gmM ** 2 * displacementT) / spread);
  const byRest = restM === 0 ? FINEST_TARGET_DEG : (PART_OF_REST * restM) / mPerDeg;
  return {
    standardErrorDeg:
      test.readingStandardErrorDeg ??
      Math.min(COARSEST_TARGET_DEG, Math.max(FINEST_TARGET_DEG, byRest)),
    restM,
    mPerDeg,
    missingDeg: repeatedStates(session)?.missingDeg ?? 0,
  };
}

/** Standard uncertainty of KG, m, that every state read to this standard error leaves. */
export function uncertaintyAt({ restM, mPerDeg }: StopTarget, standardErrorDeg: number): number {
  return Math.hypot(restM, mPerDeg * standardErrorDeg);
}

/** What has moved, state by state, and what the plan still moves from where things stand then. */
function movesOfDay(session: SessionState, test: TestOpened): (readonly MoveOfWeight[])[] {
  const done = session.states.map((state) => state.moves);
  const at = new Map(test.weights.map((weight) => [weight.weight, weight.at]));
  for (const move of done.flat()) at.set(move.weight, move.to);
  const planned = test.plan.slice(shiftsBegun(session.states).length).map(({ moves }) =>
    moves.map(({ weight, to }) => {
      const from = at.get(weight);
      if (from === undefined) throw new Fault('input-contradiction', 'plan', `no weight ${weight}`);
      at.set(weight, to);
      return { weight, from, to };
    }),
  );
  return [...(done.length === 0 ? [[]] : done), ...planned];
}

/** The budget of a day that lies on the line exactly, without the scatter; null: it has no line. */
function restOf(
  session: SessionState,
  test: TestOpened,
  moments: ReturnType<typeof momentsOfMoves>,
  gmM: number,
): number | null {
  const used = dayInstruments(session).filter(({ refused }) => refused === null);
  const causes = causesOfTest(session, test, moments, used);
  const instruments = used.length === 0 ? [EXACT] : causes.instruments;
  const { displacementT } = test.particulars;
  try {
    const { budget } = answerWithBudget(
      {
        displacement: displacementT,
        heelingMoments: moments.map((one) => one.heelingMomentTM),
        verticalMoments: moments.map(() => 0),
        tangents: moments.map((one) =>
          instruments.map(() => one.heelingMomentTM / (displacementT * gmM)),
        ),
        metacentreMovement: 0,
      },
      { ...causes, instruments },
    );
    return contributionsTogether(
      budget
        .filter(({ cause }) => cause !== SCATTER_OF_STATES)
        .map((row) => ({ ...row, standardUncertainty: Math.abs(row.kg ?? row.gm) })),
    );
  } catch (error) {
    if (error instanceof Fault) return null;
    throw error;
  }
}
