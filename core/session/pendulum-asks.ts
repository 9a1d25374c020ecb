import { Fault } from '../fault/fault.ts';
import { deflectionFromHandRead } from '../reading/deflection.ts';
import type { SessionState } from './session.ts';
import type { DayInstrument } from './session-rows.ts';

/** What a text of the trade asks of the instruments, and whether the record meets it. */
export interface PendulumAsk {
  readonly asks: string;
  readonly source: string;
  readonly met: boolean;
  readonly found: string;
}

/** 15 cm each side of upright: IS Code annex 1 2.4.1, from memory. */
const LEAST_DEFLECTION_MM = 150;
const ONE_PENDULUM_UP_TO_M = 30;

/** Every length a pendulum was read at, in the order of its readings. */
export function lengthsMm(session: SessionState, instrument: string): number[] {
  const all = session.states.flatMap((state) =>
    state.handReadings
      .filter(({ reading }) => reading.instrument === instrument)
      .map(({ reading }) => reading.lengthMm),
  );
  return [...new Set(all)];
}

/** What the texts ask of devices (standards seen, or from memory where said) beside what the record holds. */
export function pendulumAsks(
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
  if (count > 1) asks.push(lengthsAsk(session, pendulums));
  return count === 0 ? asks : [...asks, deflectionAsk(session, pendulums)];
}

function lengthsAsk(session: SessionState, pendulums: readonly DayInstrument[]): PendulumAsk {
  const lengths = pendulums.map(({ instrument }) => lengthsMm(session, instrument));
  return {
    asks: 'pendulums of different lengths, so that their readers cannot agree by looking at one another',
    source: 'practice, from memory',
    met: new Set(lengths.flat()).size === lengths.flat().length,
    found: lengths.map((each) => each.map((one) => `${one} mm`).join(', then ')).join('; '),
  };
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
