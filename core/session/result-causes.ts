import { radiansFromDegrees } from '../quantity/angle.ts';
import type { TestOpened } from '../record/line.ts';
import type { Answer } from '../reduction/budget.ts';
import type { CauseTrace } from '../reduction/cause-traces.ts';
import { type CauseEvidence, causesOf } from '../reduction/causes.ts';
import { repeatedStates } from './repeated-states.ts';
import type { SessionState } from './session.ts';
import { sessionMoments } from './session-answer.ts';
import type { ResultShape, SessionResult } from './session-result.ts';
import type { DayInstrument, DayRow } from './session-rows.ts';

/** What may be wrong with the day, the likeliest first, from shapes and all other evidence of the record. */
export function resultCauses(
  session: SessionState,
  test: TestOpened,
  rows: readonly DayRow[],
  used: readonly DayInstrument[],
  { solution, readings }: Answer,
  shapes: readonly ResultShape[],
): NonNullable<SessionResult['diagnosis']>['causes'] {
  const moments = sessionMoments(session, test);
  const repeats = repeatedStates(session);
  const claims = rows.flatMap(({ reading }) =>
    reading === null ? [] : [reading.joined.standardErrorDeg],
  );
  const evidence: CauseEvidence = {
    moments: solution.momentsFitted,
    tangents: readings.tangents,
    tangentPerMoment: solution.fit.slope.value,
    stateNames: rows.map((row) => String(row.state)),
    instrumentNames: used.map((one) => one.label),
    weights: test.weights.map(({ weight, massT }, k) => {
      const moved = rows.map((row) => moments[row.state]!.moved[k]!.yM);
      const distance = Math.max(...moved.map(Math.abs));
      return { weight, moments: moved.map((yM) => massT * yM), distance };
    }),
    timesS: timesOf(rows),
    // what later readings lack by the repeated states is added to them: the least claims for itself
    claimedTangent: claims.length === 0 ? null : radiansFromDegrees(Math.min(...claims)),
    shapes,
    periods: rows.flatMap(({ reading }, state) =>
      reading?.rollPeriodS == null || reading.rollPeriodUncertaintyS == null
        ? []
        : [{ state, periodS: reading.rollPeriodS, uncertaintyS: reading.rollPeriodUncertaintyS }],
    ),
    traces: tracesOf(session, rows, used),
    repeatsProbability: repeats?.probability ?? null,
  };
  return causesOf(evidence).map(({ states, instrument, weight, evidence: reasons, ...one }) => ({
    ...one,
    evidence: reasons,
    states: states.map((row) => rows[row]!.state),
    instrument: instrument === null ? null : used[instrument]!.label,
    weight: weight === null ? null : test.weights[weight]!.weight,
  }));
}

/** Middle of each reading; null as soon as one state was read by hand alone. */
function timesOf(rows: readonly DayRow[]): number[] | null {
  const times = rows.flatMap(({ reading }) =>
    reading === null ? [] : [(reading.fromS + reading.toS) / 2],
  );
  return times.length === rows.length ? times : null;
}

/** Stretches not counted, each by the state whose reading came next. */
function tracesOf(
  session: SessionState,
  rows: readonly DayRow[],
  used: readonly DayInstrument[],
): CauseTrace[] {
  return session.disturbances.flatMap(({ disturbance: { fromS, kind, instruments } }) => {
    const state = rows.findIndex(({ reading }) => reading !== null && reading.toS > fromS);
    if (state < 0) return [];
    const of = instruments?.map((name) => used.findIndex(({ sensor }) => sensor === name)) ?? null;
    return [{ state, kind, instruments: of === null ? null : of.filter((place) => place >= 0) }];
  });
}
