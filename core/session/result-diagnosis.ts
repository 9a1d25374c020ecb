import type { TestOpened } from '../record/line.ts';
import type { Answer } from '../reduction/budget.ts';
import { diagnosePlot } from '../reduction/diagnosis.ts';
import { ringDownEvidence } from '../reduction/ring-down-evidence.ts';
import { resultCauses } from './result-causes.ts';
import { resultRingDowns } from './result-ring-downs.ts';
import type { SessionState } from './session.ts';
import { scaleOfInstrument, sessionMoments } from './session-answer.ts';
import type { SessionResult } from './session-result.ts';
import type { DayInstrument, DayRow } from './session-rows.ts';

/** The shapes looked for in the headline's points, named by state, instrument and weight. */
export function resultDiagnosis(
  session: SessionState,
  test: TestOpened,
  rows: readonly DayRow[],
  used: readonly DayInstrument[],
  answer: Answer,
): NonNullable<SessionResult['diagnosis']> {
  const { solution, readings } = answer;
  const moments = sessionMoments(session, test);
  const { troubleSeen, verdict, shapes } = diagnosePlot({
    readings,
    fit: solution.fit,
    stateNames: rows.map((row) => String(row.state)),
    instrumentNames: used.map((one) => one.label),
    instrumentScaleUncertainties: used.map(
      (one) => scaleOfInstrument(session, one).scaleUncertainty,
    ),
    weights: test.weights.map(({ weight, massT }, k) => ({
      weight,
      moments: rows.map((row) => massT * moments[row.state]!.moved[k]!.yM),
    })),
  });
  const named = shapes.map(({ shape, seen, words, t, probability, states }) => ({
    shape,
    seen,
    words,
    statistic: t === null ? null : { name: 't', value: t },
    probability,
    states: states.map((row) => rows[row]!.state),
  }));
  const byRoll = ringDownEvidence(resultRingDowns(session)?.changes ?? [], named);
  const causes = resultCauses(session, test, rows, used, answer, named);
  return { troubleSeen, verdict, shapes: named, byRoll, causes };
}
