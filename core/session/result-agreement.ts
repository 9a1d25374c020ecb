import { Fault } from '../fault/fault.ts';
import { degreesFromRadians } from '../quantity/angle.ts';
import {
  type Agreement,
  agreementOfInstruments,
  type InstrumentHeels,
} from '../reading/agreement.ts';
import {
  type AccuracyAnswer,
  answerOfAll,
  type BesidePendulum,
  besidePendulum,
} from '../reading/as-accurate.ts';
import { handAsks } from './hand-asks.ts';
import { lengthsMm, type PendulumAsk, pendulumAsks } from './pendulum-asks.ts';
import type { SessionState } from './session.ts';
import { type DayInstrument, type DayRow, dayRows } from './session-rows.ts';

/** How the instruments of the day agree, compared within states. */
export interface ResultAgreement {
  /** Each against the mean of the others. */
  readonly instruments: readonly (Agreement & { readonly label: string })[];
  /** Each sensor beside each pendulum read by hand. */
  readonly besidePendulums: readonly (BesidePendulum & {
    readonly instrument: string;
    readonly pendulum: string;
    /** States of those whose hand reading was entered before this screen showed the sensors. */
    readonly blindStates: number;
  })[];
  readonly atLeastAsAccurate: readonly {
    readonly instrument: string;
    readonly label: string;
    readonly answer: AccuracyAnswer;
  }[];
  readonly pendulums: {
    readonly used: readonly string[];
    /** Of each, every length it was read at. */
    readonly lengthsMm: readonly (readonly number[])[];
    readonly tubes: readonly string[];
    readonly asks: readonly PendulumAsk[];
  };
}

/** The agreement so far; what cannot be told yet is missing from the lists. Throws nothing for what a day brings. */
export function resultAgreement(session: SessionState): ResultAgreement {
  const { rows, used } = dayRows(session);
  const heels = used.map((one, j) => ({
    instrument: one.instrument,
    heelDeg: rows.map((row) => heelOf(row, j)),
  }));
  const labelOf = (instrument: string) =>
    used.find((one) => one.instrument === instrument)?.label ?? instrument;
  const pendulums = byHand(session, used, 'pendulum');
  const moments = rows.map((row) => session.states[row.state]!.heelingMomentTM);
  const sensors = used.filter((one) => !one.readByHand);
  const beside = sensors.flatMap((sensor) =>
    pendulums.map((pendulum) => ({
      ...besidePendulum(
        heels[used.indexOf(sensor)]!.heelDeg,
        heels[used.indexOf(pendulum)]!.heelDeg,
        moments,
      ),
      instrument: sensor.instrument,
      pendulum: pendulum.instrument,
      blindStates: blindStates(session, rows, pendulum.instrument),
    })),
  );
  return {
    instruments: agreementOf(heels).map((one) => ({ ...one, label: labelOf(one.instrument) })),
    besidePendulums: beside,
    atLeastAsAccurate: sensors.map(({ instrument, label }) => ({
      instrument,
      label,
      answer: answerOfAll(
        beside.filter((one) => one.instrument === instrument).map((one) => one.answer),
      ),
    })),
    pendulums: {
      used: pendulums.map((one) => one.label),
      lengthsMm: pendulums.map((one) => lengthsMm(session, one.instrument)),
      tubes: byHand(session, used, 'u-tube').map((one) => one.label),
      asks: [...pendulumAsks(session, pendulums, sensors), ...handAsks(session)],
    },
  };
}

/** None while there are too few, or all heels are alike. */
function agreementOf(heels: readonly InstrumentHeels[]): Agreement[] {
  if (heels.length < 2) return [];
  try {
    return agreementOfInstruments(heels);
  } catch (error) {
    if (error instanceof Fault && error.code === 'line-not-determined') return [];
    throw error;
  }
}

function heelOf(row: DayRow, j: number): number | null {
  const tangent = row.tangents[j]!;
  return tangent === null ? null : degreesFromRadians(Math.atan(tangent));
}

function byHand(
  session: SessionState,
  used: readonly DayInstrument[],
  kind: 'pendulum' | 'u-tube',
): DayInstrument[] {
  const of = new Set(
    session.states.flatMap((state) =>
      state.handReadings
        .filter((one) => one.reading.kind === kind)
        .map((one) => one.reading.instrument),
    ),
  );
  return used.filter((one) => one.readByHand && of.has(one.instrument));
}

function blindStates(session: SessionState, rows: readonly DayRow[], instrument: string): number {
  return rows.filter((row) =>
    session.states[row.state]!.handReadings.some(
      ({ reading }) => reading.instrument === instrument && reading.blind === true,
    ),
  ).length;
}
