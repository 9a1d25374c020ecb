import { plainDegreesOfFreedom, plainUncertain } from '../numerics/coverage.ts';
import { degreesFromRadians } from '../quantity/angle.ts';
import type { TestOpened } from '../record/line.ts';
import type { Answer } from '../reduction/budget.ts';
import { compareInstruments } from '../reduction/instrument-comparison.ts';
import { instrumentWeights } from '../reduction/own-variances.ts';
import { changesOf } from './changes.ts';
import { answersOf, attempt, headOf, noTest } from './headline.ts';
import { readingFlags } from './reading-flags.ts';
import { repeatedStates } from './repeated-states.ts';
import { resultAgreement } from './result-agreement.ts';
import { resultCannotShow, resultSafety, resultTruth } from './result-beside.ts';
import { resultDiagnosis } from './result-diagnosis.ts';
import { resultWithoutOverruled, resultWithVoided } from './result-otherwise.ts';
import { resultPredictions } from './result-predictions.ts';
import { resultRingDowns } from './result-ring-downs.ts';
import type { SessionState } from './session.ts';
import type {
  GmAnswer,
  ResultInstrument,
  ResultPoint,
  ResultValue,
  SessionResult,
} from './session-result.ts';
import { type DayInstrument, type DayRow, dayInstruments, dayRows } from './session-rows.ts';
import { tangentToDegrees } from './tangent-to-degrees.ts';

const STATES_NEEDED = 3;

/**
 * What the day has given so far, from its accepted readings; the same live, in replay and on every
 * screen, being a pure function of the session. Never throws for what a day may bring: why there
 * is no line yet stands in `refused`.
 */
export function resultOfSession(session: SessionState): SessionResult {
  const { test } = session;
  const { rows, used, leftOut } = dayRows(session);
  const found = test === null ? noTest() : attempt(() => answersOf(session, test, rows, used));
  const answers = found.answers;
  const head = answers === null ? null : headOf(answers);
  const gmFluidM = head === null ? null : plainUncertain(head.gm);
  return {
    version: 1,
    issue: 1 + changesOf(session).length,
    refused: found.refused,
    leftOut,
    statesRead: rows.length,
    statesNeeded: STATES_NEEDED,
    headline:
      head === null ? null : head === answers?.classical ? 'classical' : 'metacentre-movement',
    gmFluidM,
    classical: answers === null ? null : gmAnswer(answers.classical),
    metacentreMovement: answers?.metacentreMovement ? gmAnswer(answers.metacentreMovement) : null,
    line: head === null ? null : lineOf(head),
    points: head === null ? [] : pointsOf(session, rows, used, head),
    instruments: instrumentsOf(session, test, rows, used, head),
    diagnosis:
      head === null || test === null ? null : resultDiagnosis(session, test, rows, used, head),
    agreement: resultAgreement(session),
    ringDowns: resultRingDowns(session),
    repeats: repeatedStates(session),
    cannotShow: resultCannotShow(session),
    withVoidedPutBack: resultWithVoided(session),
    withoutOverruled: resultWithoutOverruled(session),
    predictions: resultPredictions(session),
    safety: safetyOf(session, gmFluidM),
    truth: resultTruth(session, gmFluidM),
  };
}

function safetyOf(session: SessionState, gmFluidM: ResultValue | null): SessionResult['safety'] {
  const found = attempt(() => resultSafety(session, gmFluidM));
  return found.answers ?? [{ code: 'plan-not-sound', stop: false, found: found.refused.found }];
}

function gmAnswer(answer: Answer): GmAnswer {
  return {
    gmFluidM: plainUncertain(answer.gm),
    kgFluidM: answer.kg === null ? null : plainUncertain(answer.kg),
    budget: answer.budget.map(({ cause, gm, kg, degreesOfFreedom }) => ({
      cause,
      gmMm: gm * 1000,
      kgMm: kg === null ? null : kg * 1000,
      degreesOfFreedom: plainDegreesOfFreedom(degreesOfFreedom),
    })),
  };
}

const tangentInDegrees = (tangent: number) => degreesFromRadians(Math.atan(tangent));

function lineOf({ solution: { fit } }: Answer): SessionResult['line'] {
  return {
    slopePerTM: plainUncertain(fit.slope),
    interceptTangent: fit.listTangent,
    stateDeviationDeg: fit.stateDeviation === null ? null : tangentInDegrees(fit.stateDeviation),
    readingDeviationDeg: fit.ownDeviation === null ? null : tangentInDegrees(fit.ownDeviation),
  };
}

function pointsOf(
  session: SessionState,
  rows: readonly DayRow[],
  used: readonly DayInstrument[],
  { solution: { fit, momentsFitted } }: Answer,
): ResultPoint[] {
  return rows.map((row, i) => ({
    state: row.state,
    readingLine: row.readingLine,
    heelingMomentTM: session.states[row.state]!.heelingMomentTM,
    momentFittedTM: momentsFitted[i]!,
    tangent: fit.stateTangents[i]!,
    fittedTangent: fit.fittedTangents[i]!,
    leftOverDeg: degreesFromRadians(
      Math.atan(fit.stateTangents[i]!) - Math.atan(fit.fittedTangents[i]!),
    ),
    flags:
      row.reading === null || row.readingLine === null
        ? []
        : readingFlags(session, row.reading, row.readingLine).map(({ words }) => words),
    claimedErrorDeg: row.reading?.joined.standardErrorDeg ?? null,
    byInstrument: used.flatMap(({ instrument }, j) => {
      const tangent = row.tangents[j]!;
      if (tangent === null) return [];
      const fitted = tangent - fit.readingResiduals[i]![j]!;
      const heelDeg = tangentInDegrees(tangent);
      return [{ instrument, heelDeg, tangent, leftOverDeg: heelDeg - tangentInDegrees(fitted) }];
    }),
  }));
}

function instrumentsOf(
  session: SessionState,
  test: TestOpened | null,
  rows: readonly DayRow[],
  used: readonly DayInstrument[],
  head: Answer | null,
): ResultInstrument[] {
  const alone = head === null ? [] : compareInstruments(head.readings).alone;
  const weights = head === null ? [] : instrumentWeights(head.readings);
  return dayInstruments(session).map((one) => {
    const j = used.findIndex(({ instrument }) => instrument === one.instrument);
    const intercept = j < 0 ? undefined : head?.solution.fit.intercepts[j];
    const line = j < 0 ? undefined : alone[j];
    const { instrument, label, readByHand, refused } = one;
    return {
      ...{ instrument, label, readByHand, refused },
      readings: j < 0 ? 0 : rows.filter((row) => row.tangents[j] !== null).length,
      weight: j < 0 ? null : (weights[j] ?? null),
      interceptDeg: intercept === undefined ? null : plainUncertain(tangentToDegrees(intercept)),
      gmAloneM:
        line == null || test === null || !(line.slope > 0)
          ? null
          : plainUncertain({
              value: 1 / (test.particulars.displacementT * line.slope),
              standardUncertainty:
                line.slopeUncertainty / (test.particulars.displacementT * line.slope ** 2),
              degreesOfFreedom: line.degreesOfFreedom,
            }),
    };
  });
}
