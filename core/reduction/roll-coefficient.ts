import { Fault } from '../fault/fault.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';

/** One row of the table of rolling coefficients f in GM = (f B / T)^2, B in metres, T in seconds. */
export interface RollCoefficient {
  readonly name: string;
  readonly condition: string;
  readonly f: number;
  readonly source: string;
}

const TABLE = 'IMO resolution A.749(18) annex 3, 3.4';

/**
 * Rolling coefficients as printed (A.749(18) annex 3, 3.4; the first four also Transport Canada
 * TP 2072 appendix III). Which row fits her is the architect's to say: none is taken by default.
 */
export const ROLL_COEFFICIENTS: readonly RollCoefficient[] = [
  { name: 'empty', condition: 'empty ship, or ballast', f: 0.88, source: TABLE },
  {
    name: 'loaded-20',
    condition: 'fully loaded, liquids 20 % of the total load',
    f: 0.78,
    source: TABLE,
  },
  {
    name: 'loaded-10',
    condition: 'fully loaded, liquids 10 % of the total load',
    f: 0.75,
    source: TABLE,
  },
  {
    name: 'loaded-5',
    condition: 'fully loaded, liquids 5 % of the total load',
    f: 0.73,
    source: TABLE,
  },
  { name: 'shrimp-boat', condition: 'double-boom shrimp boat', f: 0.95, source: TABLE },
  { name: 'deep-sea', condition: 'deep-sea fishing boat', f: 0.8, source: TABLE },
  { name: 'live-well', condition: 'boat with a live fish well', f: 0.6, source: TABLE },
];

/** f as seen lies generally within this of the table (TP 2072): in GM 11 to 14 %. */
export const COEFFICIENT_SCATTER = 0.05;

/** Throws `input-range`. */
export function coefficientByName(name: string): RollCoefficient {
  const row = ROLL_COEFFICIENTS.find((one) => one.name === name);
  if (row === undefined) {
    const known = ROLL_COEFFICIENTS.map((one) => one.name).join(', ');
    throw new Fault('input-range', 'coefficient', `${name.slice(0, 40)}, known are ${known}`);
  }
  return row;
}

/**
 * C in T = 2 C B / sqrt(GM), so that f = 2 C: C = 0.373 + 0.023 B/d - 0.043 L/100 (Spain, RD
 * 543/2007 annex II 8; the same in IMO's weather criterion). Metres: beam and length at the
 * waterline, mean moulded draught.
 */
export function rollC(beamM: number, draughtM: number, lengthM: number): number {
  return 0.373 + (0.023 * beamM) / draughtM - (0.043 * lengthM) / 100;
}

/** GM from a period: (f B / T)^2, m. The roll feels the fluid GM. */
export function gmOfPeriod(f: number, beamM: number, periodS: number): number {
  return ((f * beamM) / periodS) ** 2;
}

/** Her own f = T sqrt(GM) / B from a period and a GM measured in one condition. */
export function ownCoefficient(periodS: Uncertain, gmM: Uncertain, beamM: number): Uncertain {
  const f = (periodS.value * Math.sqrt(gmM.value)) / beamM;
  const ofPeriod = periodS.standardUncertainty / periodS.value;
  const ofGm = gmM.standardUncertainty / gmM.value / 2;
  const together = Math.hypot(ofPeriod, ofGm);
  const inverse = ofPeriod ** 4 / periodS.degreesOfFreedom + ofGm ** 4 / gmM.degreesOfFreedom;
  return {
    value: f,
    standardUncertainty: f * together,
    degreesOfFreedom: inverse === 0 ? Number.POSITIVE_INFINITY : together ** 4 / inverse,
  };
}
