import { Fault, type FaultCode } from '#core/fault/fault.ts';
import { type Counted, SERIAL_PARTS } from '#core/part/counted.ts';
import { countOfDecimal, DECIMAL_SCALE } from '#core/part/decimal-count.ts';
import type { Count } from './driver.ts';
import type { NmeaSentence } from './nmea-sentence.ts';

/**
 * Heel by NMEA 0183. XDR (transducer measurements): any number of quadruplets type, value, unit,
 * name; angular displacement is type A in D, degrees, temperature C in C (gpsd's notes on NMEA
 * 0183, XDR; names of version 4.11 in the NMEA handout "Update to XDR sentence", 2019). PASHR:
 * time, heading, T, roll, pitch, heave and their deviations, status (gpsd's notes, PASHR).
 */
export interface NmeaChoice {
  readonly sentence: 'XDR' | 'PASHR';
  /** Transducer of the heel by its name, in any case; missing: the usual ones. */
  readonly transducer?: string | undefined;
  /** Transducer of a temperature; missing: none is taken. */
  readonly temperature?: string | undefined;
}

/** Names seen in the field and in version 4.11. */
const USUAL_HEEL_NAMES = ['ROLL', 'HEEL'] as const;
const MOST_ANGLE_DEG = 180;

/** What one sentence gives: a count for each quantity of the choice, and the places it was printed with. */
export interface NmeaReading {
  readonly counts: readonly Count[];
  /** Places after the point of the heel; null without a heel. */
  readonly places: number | null;
}

export function quantitiesOf(choice: NmeaChoice): string[] {
  if (choice.sentence === 'PASHR') return ['heel', 'time'];
  return choice.temperature === undefined ? ['heel'] : ['heel', 'temperature'];
}

/** What the counts of a quantity stand for, when the heel was printed with so many places. */
export function countedOf(quantity: string, stepDeg: number | null): Counted {
  const decimal = { form: 'integer', scale: DECIMAL_SCALE, offset: 0 } as const;
  if (quantity === 'temperature') return { ...decimal, unit: 'degC', step: null };
  if (quantity === 'time') return { ...decimal, scale: 1e-3, unit: 's', step: null };
  return { ...decimal, unit: 'deg', step: stepDeg };
}

export const part = SERIAL_PARTS.nmea;

/**
 * What a sentence says of the chosen instrument; null when it is about something else. A value that
 * is missing, in another unit or no number is no count and has its fault.
 */
export function readHeel(sentence: NmeaSentence, choice: NmeaChoice): NmeaReading | null {
  return choice.sentence === 'XDR' ? readXdr(sentence, choice) : readPashr(sentence);
}

function readXdr({ talker, type, fields }: NmeaSentence, choice: NmeaChoice): NmeaReading | null {
  if (type !== 'XDR' || talker === 'P') return null;
  const heelNames = choice.transducer === undefined ? USUAL_HEEL_NAMES : [choice.transducer];
  const wanted = [{ names: heelNames, type: 'A', unit: 'D' }];
  if (choice.temperature !== undefined)
    wanted.push({ names: [choice.temperature], type: 'C', unit: 'C' });
  if (fields.length % 4 !== 0) {
    // A decimal comma shifts all fields after it, so the name may stand anywhere.
    const isMeant = fields.some((field) => isNamed(field.trim(), heelNames));
    return isMeant ? faulty(wanted.length, 'nmea-field') : null;
  }
  const groups = quadruplets(fields);
  const found = wanted.map((one) =>
    groups.filter((group) => group.type === one.type && isNamed(group.name, one.names)),
  );
  if (found.every((each) => each.length === 0)) return null;
  const read = found.map((each, k) => readOf(each, wanted[k]!.unit));
  return {
    counts: read.map(({ count, fault }) => ({ count, fault })),
    places: read[0]!.places,
  };
}

interface Quadruplet {
  readonly type: string;
  readonly value: string;
  readonly unit: string;
  readonly name: string;
}

function quadruplets(fields: readonly string[]): Quadruplet[] {
  return Array.from({ length: fields.length / 4 }, (_, k) => {
    const [type = '', value = '', unit = '', name = ''] = fields.slice(4 * k, 4 * k + 4);
    return { type: type.trim(), value, unit: unit.trim(), name: name.trim() };
  });
}

/** Version 4.11 lets a number of the instance follow (`Roll#2`); a name without one means any. */
function isNamed(name: string, names: readonly string[]): boolean {
  const given = name.toUpperCase();
  return names.some((one) => {
    const asked = one.toUpperCase();
    return given === asked || (!asked.includes('#') && given.replace(/#\d+$/, '') === asked);
  });
}

interface Read extends Count {
  readonly places: number | null;
}
const noCount = (fault: FaultCode | null): Read => ({ count: null, fault, places: null });

function readOf(groups: readonly Quadruplet[], unit: string): Read {
  const [group, another] = groups;
  if (group === undefined) return noCount(null);
  // Which of two transducers of one name is meant, nobody can tell.
  if (another !== undefined) return noCount('nmea-field');
  if (group.value.trim() === '') return noCount('nmea-no-data');
  if (group.unit.toUpperCase() !== unit) return noCount('nmea-unit');
  return countOf(group.value);
}

function countOf(text: string): Read {
  const decimal = countOfDecimal(text.trim());
  if (decimal === null) return noCount('nmea-field');
  if (Math.abs(decimal.count * DECIMAL_SCALE) > MOST_ANGLE_DEG) return noCount('nmea-field');
  return { count: decimal.count, fault: null, places: decimal.places };
}

function faulty(quantities: number, fault: FaultCode): NmeaReading {
  return {
    counts: Array.from({ length: quantities }, () => ({ count: null, fault })),
    places: null,
  };
}

/** Another maker's PASHR has a word where this one has the time, and is passed over. */
function readPashr({ talker, type, fields }: NmeaSentence): NmeaReading | null {
  if (talker !== 'P' || type !== 'ASHR') return null;
  const [time = '', , reference = '', roll = ''] = fields;
  if (/^[A-Z]/i.test(time)) return null;
  const ms = millisecondsOfDay(time);
  if (reference !== 'T' || fields.length < 5 || ms === 'no-time') return faulty(2, 'nmea-field');
  const heel = roll.trim() === '' ? noCount('nmea-no-data') : countOf(roll);
  return {
    counts: [
      { count: heel.count, fault: heel.fault },
      { count: ms, fault: null },
    ],
    places: heel.places,
  };
}

/** Of `hhmmss.sss`, UTC; null where the instrument does not know the time yet. */
function millisecondsOfDay(time: string): number | null | 'no-time' {
  if (time === '') return null;
  const match = /^(\d\d)(\d\d)(\d\d)(?:\.(\d{1,3}))?$/.exec(time);
  if (match === null) return 'no-time';
  const [hours, minutes, seconds] = match.slice(1, 4).map(Number) as [number, number, number];
  // A leap second has the number 60.
  if (hours > 23 || minutes > 59 || seconds > 60) return 'no-time';
  const fraction = Number((match[4] ?? '').padEnd(3, '0'));
  return ((hours * 60 + minutes) * 60 + seconds) * 1000 + fraction;
}

/** A sentence (PASHR) of the same time as the one before tells nothing new: its counts are not used. */
export function withoutRepeated(
  choice: NmeaChoice,
  reading: NmeaReading,
  before: NmeaReading | null,
): NmeaReading {
  if (choice.sentence !== 'PASHR') return reading;
  const [time, earlier] = [reading.counts[1]?.count, before?.counts[1]?.count];
  if (time == null || time !== earlier) return reading;
  return {
    ...reading,
    counts: reading.counts.map(({ count }) => ({ count, fault: 'nmea-repeated' })),
  };
}

/** A sentence that no instrument of this line could be read from. */
export function wordsOf({ talker, type }: NmeaSentence): string {
  return `$${talker}${type}`;
}

/** The fault when nothing that was chosen comes. */
export function silentFault(where: string, heard: ReadonlySet<string>, asked: string): Fault {
  const words = heard.size === 0 ? 'no sentence' : [...heard].slice(0, 8).join(', ');
  return new Fault('serial-silent', where, `heard ${words}; asked for ${asked}`);
}
