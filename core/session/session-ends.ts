import type { Occasion } from '../record/entry-line.ts';
import type { ClosingUncertainties, EndOfTest } from '../survey/closing.ts';
import { waterFromSamples } from '../water/water-samples.ts';
import type { SessionState, ShiftState } from './session.ts';
import { entriesOf } from './survey-state.ts';

/** A sounding is taken to so much, and a sensor shows its own zero to so much. Our settings. */
const SOUNDING_M = 0.005;
const SENSOR_ZERO_DEG = 0.003;
/** A weight weighed on a scale nobody stated. Our setting. */
const MASS_SHARE = 0.001;
/** Moments this near, t m, are the same arrangement. Rounding of sums. */
const SAME_MOMENT_TM = 1e-6;

/** What was taken before the first shift and again after the last, as it stands in the record. */
export function endsOfSession(session: SessionState): { before: EndOfTest; after: EndOfTest } {
  const [first] = session.states;
  const back = session.states.findLast(
    (state) =>
      state !== first &&
      state.reading !== null &&
      Math.abs(state.heelingMomentTM - (first?.heelingMomentTM ?? 0)) < SAME_MOMENT_TM,
  );
  return {
    before: { ...entered(session, 'before'), zeros: zerosOf(session, first) },
    after: { ...entered(session, 'closing'), zeros: zerosOf(session, back) },
  };
}

/** A sensor put down anew has another zero from then on, which says nothing of her. */
function zerosOf(session: SessionState, state: ShiftState | undefined): EndOfTest['zeros'] {
  const remounted = new Set(session.remounted.map(({ instrument }) => instrument));
  return (state?.reading?.instruments ?? [])
    .filter(({ instrument }) => !remounted.has(instrument))
    .map(({ instrument, heelDeg, standardErrorDeg }) => ({
      instrument,
      heelDeg,
      standardErrorDeg,
    }));
}

function entered({ survey, test }: SessionState, occasion: Occasion): Omit<EndOfTest, 'zeros'> {
  const again = <S extends 'freeboard' | 'water' | 'tank' | 'item' | 'zero' | 'weight'>(sheet: S) =>
    entriesOf(survey, sheet, occasion);
  const samples = again('water').map(({ key, value }) => ({ place: key, ...value }));
  return {
    freeboards: again('freeboard').map(({ key, value }) => ({
      point: key,
      side: value.side,
      freeboardM: value.freeboardM,
    })),
    densityKgM3: samples.length === 0 ? null : waterFromSamples(samples, 0).densityKgM3.value,
    soundings: again('tank').flatMap(({ key, value }) =>
      value.sounding === undefined ? [] : [{ tank: key, depthM: value.sounding.depthM }],
    ),
    people: again('item').flatMap(({ key, value }) =>
      value.kind === 'person' ? [{ person: key, station: value.note ?? '' }] : [],
    ),
    sensorZeros: again('zero').map(({ key, value }) => ({
      instrument: key,
      zeroDeg: value.zeroDeg,
    })),
    weights:
      occasion === 'before'
        ? (test?.weights ?? []).map(({ weight, massT }) => ({ weight, massT }))
        : again('weight').map(({ key, value }) => ({ weight: key, massT: value.massT })),
  };
}

/**
 * How far two takings may differ, by what was said of the readings; null while it is not said how
 * well freeboards are read. `tonnesPerM`: mass that sinks her by a metre, null without a hull.
 */
export function endsUncertainties(
  { survey, test }: SessionState,
  { freeboardM, tonnesPerM }: { freeboardM: number | null; tonnesPerM: number | null },
): ClosingUncertainties | null {
  const [vessel] = entriesOf(survey, 'vessel');
  const stated = vessel?.value.readingUncertaintyM ?? freeboardM;
  if (vessel === undefined || stated === null) return null;
  const shares = (test?.weights ?? []).map(
    ({ massT, massUncertaintyT }) => massUncertaintyT / massT,
  );
  return {
    freeboardM: stated,
    densityKgM3: vessel.value.hydrometerUncertaintyKgM3,
    soundingM: SOUNDING_M,
    sensorZeroDeg: SENSOR_ZERO_DEG,
    massShare: Math.max(...shares, 0) || MASS_SHARE,
    tonnesPerM,
  };
}
