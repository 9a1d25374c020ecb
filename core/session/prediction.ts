import { Fault } from '../fault/fault.ts';
import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';
import { type GmSolution, solveGm } from '../reduction/gm.ts';
import {
  type HeelPrediction,
  type LineSoFar,
  predictFromGuess,
  predictFromLine,
} from '../shift/prediction.ts';
import type { SessionState, ShiftState } from './session.ts';
import { sessionMoments } from './session-answer.ts';

/**
 * The joined heel the next state is predicted to be read at, for a heeling moment counted since
 * the first state: from the line of three states or more, before that from the guess of GM and
 * what is read. Null while nothing is read. Weights are taken to be carried level.
 */
export function predictHeelOfSession(
  session: SessionState,
  heelingMomentTM: number,
): HeelPrediction | null {
  const { test } = session;
  if (test === null) return null;
  const read = session.states.filter((state) => state.reading !== null);
  if (read.length === 0) return null;
  const solution = lineOfJoined(session, read);
  if (solution !== null) {
    const { displacementT, metacentreMovementM } = test.particulars;
    const bend = displacementT * (metacentreMovementM ?? 0);
    return predictAlong(lineSoFar(solution), heelingMomentTM, bend);
  }
  const { displacementT, gmGuessM, gmGuessUncertaintyM } = test.particulars;
  return predictFromGuess(
    { displacementT, gmM: gmGuessM, gmUncertaintyM: gmGuessUncertaintyM },
    read.map((state) => ({
      heelingMomentTM: state.heelingMomentTM,
      tangent: joinedTangent(state),
      standardError:
        radiansFromDegrees(state.reading!.joined.standardErrorDeg) *
        (1 + joinedTangent(state) ** 2),
    })),
    heelingMomentTM,
  );
}

function joinedTangent(state: ShiftState): number {
  return Math.tan(radiansFromDegrees(state.reading!.joined.heelDeg));
}

/** The line of the joined heels; null while it is not determined. */
function lineOfJoined(session: SessionState, read: readonly ShiftState[]): GmSolution | null {
  const test = session.test!;
  if (read.length < 3) return null;
  const moments = sessionMoments(session, test);
  try {
    return solveGm({
      displacement: test.particulars.displacementT,
      heelingMoments: read.map((state) => moments[state.state]!.heelingMomentTM),
      verticalMoments: read.map((state) => moments[state.state]!.verticalMomentTM),
      tangents: read.map((state) => [joinedTangent(state)]),
      metacentreMovement: test.particulars.metacentreMovementM ?? 0,
    });
  } catch (error) {
    if (error instanceof Fault && error.code === 'line-not-determined') return null;
    throw error;
  }
}

function lineSoFar({ fit, momentsFitted }: GmSolution): LineSoFar {
  const states = momentsFitted.length;
  const middleMomentTM = momentsFitted.reduce((sum, moment) => sum + moment, 0) / states;
  const left = fit.stateResiduals.reduce((sum, residual) => sum + residual * residual, 0);
  return {
    middleMomentTM,
    tangentAtMiddle: fit.fittedTangents.reduce((sum, tangent) => sum + tangent, 0) / states,
    slopePerTM: fit.slope.value,
    slopeUncertaintyPerTM: fit.slope.standardUncertainty,
    states,
    stateDeviation: Math.sqrt(left / fit.statesDof),
    degreesOfFreedom: fit.statesDof,
  };
}

/** The line stands over moments less c2's part, which depends on the heel looked for: by repetition. */
function predictAlong(line: LineSoFar, heelingMomentTM: number, bend: number): HeelPrediction {
  let predicted = predictFromLine(line, heelingMomentTM);
  for (let round = 0; bend !== 0 && round < 30; round++) {
    const tangent = Math.tan(radiansFromDegrees(predicted.heelDeg));
    const next = predictFromLine(line, heelingMomentTM - bend * tangent ** 3);
    const change = Math.abs(next.heelDeg - predicted.heelDeg);
    predicted = next;
    if (change < degreesFromRadians(1e-12)) break;
  }
  return predicted;
}
