import { Fault } from '../fault/fault.ts';
import type { TestInput } from '../reduction/test-input.ts';
import type { SessionState, ShiftState } from './session.ts';
import { scaleOfInstrument } from './session-answer.ts';
import { sessionEvidence } from './session-evidence.ts';
import { type DayInstrument, type DayRow, dayRows } from './session-rows.ts';
import { entriesOf, type SurveyState } from './survey-state.ts';

/**
 * A recorded day as a test written by hand has it, so that desk and dockside reduce by one code:
 * what was read, moved and entered, metres and tonnes. Displacement and KM follow from the hull
 * where a hull, how she floats and the water are entered; else they are the test's own. Throws
 * `input-contradiction` without a test.
 */
export function testOfSession(session: SessionState): TestInput {
  const { test, survey, record } = session;
  if (test === null) throw new Fault('input-contradiction', 'record', 'no test is open in it');
  const { rows, used } = dayRows(session);
  const choices = entriesOf(survey, 'choices')[0]?.value ?? {};
  const float = floatOf(survey);
  const { displacementT, displacementUncertaintyT, kmM, kmUncertaintyM, metacentreMovementM } =
    test.particulars;
  const stated = {
    displacement: { value: displacementT, standardUncertainty: displacementUncertaintyT },
    // KM whose uncertainty nobody states gives no KG, as on the screen.
    ...(kmM === null || kmUncertaintyM === null
      ? {}
      : { km: { value: kmM, standardUncertainty: kmUncertaintyM } }),
    ...(metacentreMovementM === null
      ? {}
      : { metacentreMovement: { value: metacentreMovementM, standardUncertainty: 0 } }),
  };
  const { official, listFromWaterline, ...always } = choices;
  // Choices that need a hull wait until there is one.
  const chosen =
    float === null
      ? { ...always, ...(official === 'exact' || official === undefined ? {} : { official }) }
      : choices;
  const instruments = used.map((one) => instrumentOf(session, one));
  return {
    heelwrightTest: 1,
    name: test.test,
    source: `record ${record ?? 'without a name'}`,
    units: { mass: 't', length: 'm' },
    ...(float === null ? stated : { ...float, ...surveyOf(survey) }),
    ...chosen,
    ...readingTimeOf(rows),
    weights: test.weights.map(({ weight, massT, massUncertaintyT }) => ({
      weight,
      mass: massT,
      standardUncertainty: massUncertaintyT,
    })),
    distanceUncertainty: test.distanceUncertaintyM,
    instruments,
    states: statesOf(session.states, rows, used, instruments),
    ...spacesOf(survey),
    evidence: evidenceOf(session, float !== null),
  };
}

/** What the float and the spaces say is said by the reduction itself. */
function evidenceOf(session: SessionState, byHull: boolean): NonNullable<TestInput['evidence']> {
  const { 'full-width-liquid': _, displacement, km, ...evidence } = sessionEvidence(session);
  const written = entriesOf(session.survey, 'choices')[0]?.value.evidence ?? {};
  if (byHull) return { ...evidence, ...written };
  return {
    ...evidence,
    ...(displacement === undefined ? {} : { displacement }),
    ...(km === undefined ? {} : { km }),
    ...written,
  };
}

/** Hull, waterline and water, where all three are there. */
export function floatOf(
  survey: SurveyState,
): Pick<TestInput, 'hull' | 'waterline' | 'water' | 'liquids'> | null {
  const hull = entriesOf(survey, 'hull')[0]?.value;
  const vessel = entriesOf(survey, 'vessel')[0]?.value;
  const freeboards = entriesOf(survey, 'freeboard');
  const marks = entriesOf(survey, 'mark');
  const water = entriesOf(survey, 'water');
  if (hull === undefined || vessel === undefined || water.length === 0) return null;
  if (freeboards.length + marks.length === 0) return null;
  const { hydrometerUncertaintyKgM3, freeSurfaceUncertaintyShare, ...waterline } = vessel;
  const { volumeUncertaintyShare, kmUncertaintyM, file, densityKgM3 } = hull;
  const tanks = entriesOf(survey, 'tank');
  return {
    hull: {
      ...(densityKgM3 === null ? { file } : { tables: { file, densityKgM3 } }),
      volumeUncertaintyShare,
      kmUncertaintyM,
    },
    waterline: {
      ...waterline,
      freeboards: freeboards.map(({ key, value }) => ({ point: key, ...value })),
      marks: marks.map(({ key, value }) => ({ point: key, ...value })),
    },
    water: {
      samples: water.map(({ key, value }) => ({ place: key, ...value })),
      hydrometerUncertaintyKgM3,
    },
    ...(tanks.length === 0
      ? {}
      : {
          liquids: {
            tanks: tanks.map(({ key, value }) => ({ tank: key, ...value })),
            freeSurfaceUncertaintyShare,
          },
        }),
  };
}

function surveyOf(survey: SurveyState): Pick<TestInput, 'survey'> {
  const items = entriesOf(survey, 'item');
  const matters = entriesOf(survey, 'matter');
  if (items.length === 0 && matters.length === 0) return {};
  return {
    survey: {
      sheet: {
        matters: matters.map(({ key, value }) => ({
          // The form of a line holds the key to the matters there are.
          matter: key as MatterName,
          ...value,
        })),
        agreedBy: entriesOf(survey, 'agreed').map(({ key, value }) => `${key}, ${value.as}`),
      },
      items: items.map(({ key, value }) => ({
        item: key,
        ...value,
        photographLine:
          survey.photographs.findLast((one) => one.of?.sheet === 'item' && one.of.key === key)
            ?.written.line ?? null,
      })),
    },
  };
}

type MatterName = NonNullable<
  NonNullable<TestInput['survey']>['sheet']
>['matters'][number]['matter'];

function spacesOf(survey: SurveyState): Pick<TestInput, 'spacesSeen'> {
  const spaces = entriesOf(survey, 'space');
  if (spaces.length === 0) return {};
  return { spacesSeen: spaces.map(({ key, value }) => ({ space: key, ...value })) };
}

/** How the accepted readings were read, the median of each. */
function readingTimeOf(rows: readonly DayRow[]): Pick<TestInput, 'readingTime'> {
  const readings = rows.flatMap(({ reading }) => (reading === null ? [] : [reading]));
  if (readings.length === 0) return {};
  const middle = (values: number[]) =>
    values.sort((a, b) => a - b)[Math.floor((values.length - 1) / 2)]!;
  return {
    readingTime: {
      countedS: middle(readings.map(({ countedS }) => countedS)),
      standardErrorDeg: middle(readings.map(({ joined }) => joined.standardErrorDeg)),
    },
  };
}

function instrumentOf(session: SessionState, one: DayInstrument): TestInput['instruments'][number] {
  const { scaleUncertainty, standard, space } = scaleOfInstrument(session, one);
  const scaled = {
    instrument: one.instrument,
    scaleUncertainty,
    scaleOf: space,
    ...(standard == null ? {} : { standard }),
  };
  const length = battenM(session, one);
  if (length === null) return { ...scaled, reads: 'tangent' };
  return { ...scaled, reads: one.readByHand ? 'deflection' : 'level-difference', length };
}

/** Length of a pendulum or span of a tube, on which a tangent shows as millimetres; null: it has none. */
function battenM(session: SessionState, { instrument, sensor, readByHand }: DayInstrument) {
  if (!readByHand) return session.mountings.find((one) => one.instrument === sensor)?.spanM ?? null;
  const lengthsMm = session.states.flatMap(({ handReadings }) =>
    handReadings.flatMap(({ reading }) =>
      reading.instrument === instrument ? [reading.lengthMm] : [],
    ),
  );
  return lengthsMm.length === 0 ? null : Math.min(...lengthsMm) / 1000;
}

/** A state that was not read lends its moves to the next one that was. */
function statesOf(
  states: readonly ShiftState[],
  rows: readonly DayRow[],
  used: readonly DayInstrument[],
  instruments: TestInput['instruments'],
): TestInput['states'] {
  let from = 0;
  return rows.map((row, i) => {
    const upTo = states.slice(i === 0 ? 1 : from, row.state + 1);
    from = row.state + 1;
    // Moves before the first reading only say where the weights stood then.
    const moves =
      i === 0
        ? []
        : upTo.flatMap((state) =>
            state.moves.map(({ weight, from: start, to }) => ({
              weight,
              distance: to.yM - start.yM,
              rise: to.zM - start.zM,
              forward: to.xM - start.xM,
            })),
          );
    return {
      state: String(row.state),
      ...timeOf(row),
      moves,
      readings: Object.fromEntries(
        used.map(({ instrument }, j) => {
          const tangent = row.tangents[j] ?? null;
          const read = instruments[j]!;
          return [
            instrument,
            tangent === null || !('length' in read) ? tangent : tangent * read.length,
          ];
        }),
      ),
    };
  });
}

function timeOf({ reading }: DayRow): { time?: number } {
  return reading === null ? {} : { time: (reading.fromS + reading.toS) / 2 };
}
