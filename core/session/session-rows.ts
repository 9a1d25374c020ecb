import { Fault, type FaultReport } from '../fault/fault.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import { deflectionFromHandRead } from '../reading/deflection.ts';
import type { Reading } from '../record/reading-line.ts';
import { certificateRefusal } from '../sample/certificate-refusal.ts';
import { foundAs } from './found-as.ts';
import { certificateAt, heelByCertificate } from './heel-by-certificate.ts';
import type { SessionState, ShiftState } from './session.ts';

/** An instrument of the day: a sensor as mounted, or one read by hand. */
export interface DayInstrument {
  /** Of its own for each time a sensor was put down: its zero is another one. */
  readonly instrument: string;
  /** The sensor as mounted; null: read by hand. */
  readonly sensor: string | null;
  /** It stood so for readings from this line up to that one. */
  readonly fromLine: number;
  readonly toLine: number;
  readonly label: string;
  readonly readByHand: boolean;
  /** Why it is left out of GM; null: used. */
  readonly refused: string | null;
}

/** One arrangement as read once, by the instruments used. */
export interface DayRow {
  readonly state: number;
  readonly readingLine: number | null;
  readonly reading: Reading | null;
  /** Tangent of heel in the order of the used instruments; null where one was not read. */
  readonly tangents: readonly (number | null)[];
}

/** A hand reading that gives no heel, with the reason. */
export interface LeftOut {
  readonly state: number;
  readonly instrument: string;
  readonly fault: FaultReport;
}

/** Every instrument of the day, sensors in the order of their mounting, then those read by hand. */
export function dayInstruments(session: SessionState): DayInstrument[] {
  const sensors = session.mountings.flatMap(({ instrument, label }) =>
    standings(session, instrument).map(({ fromLine, toLine, untilS }, k) => ({
      instrument: k === 0 ? instrument : `${instrument} from line ${fromLine}`,
      sensor: instrument,
      fromLine,
      toLine,
      label: k === 0 ? label : `${label}, put down anew (line ${fromLine})`,
      readByHand: false,
      refused: certificateRefusal(
        certificateAt(session, instrument, fromLine),
        foundAs(session, instrument, untilS),
      ),
    })),
  );
  const byHand = new Set(
    session.states.flatMap((state) => state.handReadings.map((one) => one.reading.instrument)),
  );
  return [
    ...sensors,
    ...[...byHand].map((instrument) => ({
      instrument,
      sensor: null,
      fromLine: 0,
      toLine: Number.POSITIVE_INFINITY,
      label: instrument,
      readByHand: true,
      refused: null,
    })),
  ];
}

/** The stretches of the record in which a sensor stood in one place. */
function standings(session: SessionState, instrument: string) {
  const ends = session.remounted
    .filter((one) => one.instrument === instrument)
    .map(({ written }) => written);
  return [0, ...ends.map(({ line }) => line)].map((fromLine, k) => ({
    fromLine,
    toLine: ends[k]?.line ?? Number.POSITIVE_INFINITY,
    untilS: ends[k]?.receiverS ?? Number.POSITIVE_INFINITY,
  }));
}

/**
 * The rows of the line: one for each accepted reading; hand readings of a state stand beside it,
 * several by one instrument as their mean, what gives
 * no heel being named in `leftOut`. With `voidedToo` every voided reading is a row of its
 * own, in the order the readings were taken. Instruments that stand in no row drop out.
 */
export function dayRows(
  session: SessionState,
  voidedToo = false,
): { rows: DayRow[]; used: DayInstrument[]; leftOut: LeftOut[] } {
  const leftOut: LeftOut[] = [];
  const wanted = dayInstruments(session).filter((one) => one.refused === null);
  const rows = session.states.flatMap((state) => [
    ...(voidedToo ? state.voided : []).map(({ reading, written }) => ({
      state: state.state,
      readingLine: written.line,
      reading,
      tangents: wanted.map((one) => sensorTangent(session, one, reading, written.line)),
    })),
    ...acceptedRow(session, state, wanted, leftOut),
  ]);
  const stands = wanted.map((_, j) => rows.some((row) => row.tangents[j] !== null));
  return {
    rows: rows
      .map((row) => ({ ...row, tangents: row.tangents.filter((_, j) => stands[j]) }))
      .filter((row) => row.tangents.some((tangent) => tangent !== null)),
    used: wanted.filter((_, j) => stands[j]),
    leftOut,
  };
}

function acceptedRow(
  session: SessionState,
  state: ShiftState,
  wanted: readonly DayInstrument[],
  leftOut: LeftOut[],
): DayRow[] {
  const tangents = wanted.map((one) =>
    one.readByHand
      ? handTangent(state, one.instrument, leftOut)
      : sensorTangent(session, one, state.reading, state.readingWritten?.line ?? 0),
  );
  if (tangents.every((tangent) => tangent === null)) return [];
  return [
    {
      state: state.state,
      readingLine: state.readingWritten?.line ?? null,
      reading: state.reading,
      tangents,
    },
  ];
}

function sensorTangent(
  session: SessionState,
  wanted: DayInstrument,
  reading: Reading | null,
  line: number,
): number | null {
  if (line < wanted.fromLine || line >= wanted.toLine) return null;
  const found = reading?.instruments.find((one) => one.instrument === wanted.sensor);
  const heelDeg = found === undefined ? null : heelByCertificate(session, found, line);
  return heelDeg === null ? null : Math.tan(radiansFromDegrees(heelDeg));
}

function handTangent(state: ShiftState, instrument: string, leftOut: LeftOut[]): number | null {
  const tangents = state.handReadings.flatMap(({ reading }) => {
    if (reading.instrument !== instrument) return [];
    try {
      return [Math.tan(radiansFromDegrees(deflectionFromHandRead(reading).heelDeg))];
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      leftOut.push({ state: state.state, instrument, fault: error.report });
      return [];
    }
  });
  if (tangents.length === 0) return null;
  return tangents.reduce((sum, tangent) => sum + tangent, 0) / tangents.length;
}
