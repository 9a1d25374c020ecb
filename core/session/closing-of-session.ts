import type { Occasion } from '../record/entry-line.ts';
import { type ClosingFound, compareEnds, type EndOfTest } from '../survey/closing.ts';
import { firstAgain } from './first-again.ts';
import type { SessionState, ShiftState } from './session.ts';
import { entriesOf, type SurveyState } from './survey-state.ts';

/** What two readings of one thing may differ by where nobody states better. Our settings. */
const USUAL = {
  freeboardM: 0.005,
  densityKgM3: 0.5,
  soundingM: 0.01,
  sensorZeroDeg: 0.003,
  massShare: 0.002,
};

/**
 * The end of the day against its beginning. Null until something was taken at the end.
 * `tonnesPerM`: mass that sinks her by a metre; null: not known.
 */
export function closingOfSession(
  session: SessionState,
  tonnesPerM: number | null = null,
): ClosingFound | null {
  const { survey, states } = session;
  const again = firstAgain(session);
  const closing = survey.entries.some(({ occasion }) => occasion === 'closing');
  if (!closing && again === null) return null;
  const vessel = entriesOf(survey, 'vessel')[0]?.value;
  return compareEnds(
    endOf(session, 'before', states[0] ?? null),
    endOf(session, 'closing', again),
    {
      ...USUAL,
      freeboardM: vessel?.readingUncertaintyM ?? USUAL.freeboardM,
      densityKgM3: vessel?.hydrometerUncertaintyKgM3 ?? USUAL.densityKgM3,
      tonnesPerM,
    },
  );
}

function endOf(session: SessionState, occasion: Occasion, zero: ShiftState | null): EndOfTest {
  const { survey } = session;
  // A sensor put down anew has another zero from then on, which says nothing of her.
  const anew = new Set(session.remounted.map(({ instrument }) => instrument));
  const water = entriesOf(survey, 'water', occasion).map(({ value }) => value.densityKgM3);
  return {
    zeros: (zero?.reading?.instruments ?? [])
      .filter(({ instrument }) => !anew.has(instrument))
      .map(({ instrument, heelDeg, standardErrorDeg }) => ({
        instrument,
        heelDeg,
        standardErrorDeg,
      })),
    freeboards: entriesOf(survey, 'freeboard', occasion).map(({ key, value }) => ({
      point: key,
      side: value.side,
      freeboardM: value.freeboardM,
    })),
    densityKgM3:
      water.length === 0 ? null : water.reduce((sum, each) => sum + each, 0) / water.length,
    soundings: entriesOf(survey, 'tank', occasion).flatMap(({ key, value }) =>
      value.sounding === undefined ? [] : [{ tank: key, depthM: value.sounding.depthM }],
    ),
    people: peopleOf(survey, occasion),
    sensorZeros: entriesOf(survey, 'zero', occasion).map(({ key, value }) => ({
      instrument: key,
      zeroDeg: value.zeroDeg,
    })),
    weights: weightsOf(session, occasion),
  };
}

/** What each weight was weighed at; at the beginning as the test states it. */
function weightsOf({ survey, test }: SessionState, occasion: Occasion): EndOfTest['weights'] {
  if (occasion === 'before')
    return (test?.weights ?? []).map(({ weight, massT }) => ({ weight, massT }));
  return entriesOf(survey, 'weight', occasion).map(({ key, value }) => ({
    weight: key,
    massT: value.massT,
  }));
}

/** A person stands where they stood within a stride. */
const STRIDE_M = 0.5;

function peopleOf(survey: SurveyState, occasion: Occasion): EndOfTest['people'] {
  const stood = new Map(entriesOf(survey, 'item').map(({ key, value }) => [key, value.at]));
  return entriesOf(survey, 'item', occasion).flatMap(({ key, value }) => {
    if (value.kind !== 'person') return [];
    const from = stood.get(key) ?? value.at;
    const awayM = Math.hypot(value.at.xM - from.xM, value.at.yM - from.yM);
    return [{ person: key, station: awayM < STRIDE_M ? 'as before' : 'elsewhere' }];
  });
}
