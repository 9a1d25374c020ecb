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
import { deflectionFromHandRead } from '../reading/deflection.ts';
import type { SessionState } from './session.ts';
import { type DayInstrument, type DayRow, dayRows } from './session-rows.ts';

/** What a text of the trade asks of the instruments, and whether the record meets it. */
export interface PendulumAsk {
  readonly asks: string;
  readonly source: string;
  readonly met: boolean;
  readonly found: string;
}

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
    readonly tubes: readonly string[];
    readonly asks: readonly PendulumAsk[];
  };
}

/** 15 cm each side of upright: IS Code annex 1 2.4.1, from memory. */
const LEAST_DEFLECTION_MM = 150;
const ONE_PENDULUM_UP_TO_M = 30;

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
      tubes: byHand(session, used, 'u-tube').map((one) => one.label),
      asks: asksOf(session, pendulums, sensors),
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

/** What the texts ask of devices (standards seen, or from memory where said) beside what the record holds. */
function asksOf(
  session: SessionState,
  pendulums: readonly DayInstrument[],
  sensors: readonly DayInstrument[],
): PendulumAsk[] {
  const count = pendulums.length;
  const found = count === 1 ? '1 pendulum' : `${count} pendulums`;
  const lengthM = session.test?.particulars.lengthM ?? Number.POSITIVE_INFINITY;
  const asks: PendulumAsk[] = [
    {
      asks: 'three pendulums, at least two',
      source: 'IS Code B 8.2.2.9 as the Netherlands inspectorate quotes it',
      met: count >= 2,
      found,
    },
  ];
  if (lengthM <= ONE_PENDULUM_UP_TO_M) {
    asks.push({
      asks: `up to ${ONE_PENDULUM_UP_TO_M} m of length one pendulum can be accepted`,
      source: 'IS Code B 8.2.2.9, from memory',
      met: count >= 1,
      found: `${found}, ${lengthM} m`,
    });
  }
  if (sensors.length > 0) {
    asks.push({
      asks: 'inclinometers or tubes in place of pendulums only with at least one pendulum, as the authority decides',
      source: 'IS Code B 8.2.2.9 as the Netherlands inspectorate quotes it',
      met: count >= 1,
      found,
    });
  }
  return count === 0 ? asks : [...asks, deflectionAsk(session, pendulums)];
}

function deflectionAsk(session: SessionState, pendulums: readonly DayInstrument[]): PendulumAsk {
  const largest = pendulums.map(({ instrument }) => {
    const rests = session.states.flatMap((state) =>
      state.handReadings.flatMap(({ reading }) =>
        reading.instrument === instrument ? restMm(reading) : [],
      ),
    );
    return Math.min(Math.max(0, ...rests), -Math.min(0, ...rests));
  });
  const least = Math.min(...largest);
  return {
    asks: `a deflection of ${LEAST_DEFLECTION_MM} mm to each side`,
    source: 'IS Code annex 1 2.4.1, from memory',
    met: least >= LEAST_DEFLECTION_MM,
    found: `${least.toFixed(0)} mm to the lesser side`,
  };
}

function restMm(reading: Parameters<typeof deflectionFromHandRead>[0]): number[] {
  try {
    return [deflectionFromHandRead(reading).restMm];
  } catch (error) {
    if (error instanceof Fault) return [];
    throw error;
  }
}
