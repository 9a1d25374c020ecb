import type { FaultCode } from '../fault/fault.ts';
import { type Counted, levelMmFromValue, sineFromValue, valueOfCount } from '../part/counted.ts';
import { type CheckedBlock, type Converter, columnOf, soundCount } from './checked-block.ts';
import {
  heelDegFromLevelDifference,
  heelDegFromSine,
  type MountedInstrument,
} from './indicated-heel.ts';
import type { Channel } from './stream-item.ts';

/** Does the stream itself say what this instrument's counts stand for? */
export function isCounted(channels: readonly Channel[], instrument: string): boolean {
  return channels.some((one) => one.instrument === instrument && one.counted !== undefined);
}

/**
 * Heel of an instrument on a serial line: `heel` of an inclinometer, or the `port` and `starboard`
 * legs of a water tube, each read in the same sample. RangeError when a column is missing or in a
 * unit that cannot be.
 */
export function countedConverter(channels: readonly Channel[], of: MountedInstrument): Converter {
  const { instrument, kind } = of.mounting;
  const heelDeg = kind === 'inclinometer' ? heelOf(channels, of) : tubeHeelOf(channels, of);
  const temperature = channels.some(
    (one) => one.instrument === instrument && one.quantity === 'temperature',
  )
    ? valueReader(channels, instrument, 'temperature')
    : null;
  return (checked) => {
    const samples = checked.block.stepUs.map((_, sample) => sample);
    const heels = samples.map((sample) => heelDeg(checked, sample));
    return {
      instrument,
      heelDeg: heels.map((heel) => (typeof heel === 'number' ? heel : null)),
      temperatureC: samples.map((sample) => temperature?.(checked, sample) ?? null),
      calibrated: of.certificate !== null,
      faults: heels.flatMap((heel, sample): [number, FaultCode][] =>
        heel === 'beyond' ? [[sample, 'chip-saturated']] : [],
      ),
    };
  };
}

/** `beyond`: a value that is no heel (an angle over 90 degrees, a sine over 1). */
type HeelReader = (checked: CheckedBlock, sample: number) => number | 'beyond' | null;

function heelOf(channels: readonly Channel[], of: MountedInstrument): HeelReader {
  const read = valueReader(channels, of.mounting.instrument, 'heel');
  sineFromValue(0, read.unit);
  return (checked, sample) => {
    const value = read(checked, sample);
    if (value === null) return null;
    const sine = sineFromValue(value, read.unit);
    return (sine === null ? null : heelDegFromSine(sine, of)) ?? 'beyond';
  };
}

function tubeHeelOf(channels: readonly Channel[], of: MountedInstrument): HeelReader {
  const [port, starboard] = ['port', 'starboard'].map((leg) =>
    valueReader(channels, of.mounting.instrument, leg),
  ) as [ValueReader, ValueReader];
  levelMmFromValue(0, port.unit);
  levelMmFromValue(0, starboard.unit);
  heelDegFromLevelDifference(0, of);
  return (checked, sample) => {
    const [p, s] = [port(checked, sample), starboard(checked, sample)];
    if (p === null || s === null) return null;
    const differenceMm = levelMmFromValue(s, starboard.unit) - levelMmFromValue(p, port.unit);
    return heelDegFromLevelDifference(differenceMm, of);
  };
}

interface ValueReader {
  (checked: CheckedBlock, sample: number): number | null;
  readonly unit: Counted['unit'];
}

function valueReader(
  channels: readonly Channel[],
  instrument: string,
  quantity: string,
): ValueReader {
  const column = columnOf(channels, instrument, quantity);
  const counted = channels[column.index]?.counted;
  if (counted === undefined) throw new RangeError(`${instrument} ${quantity} says no unit`);
  const read = (checked: CheckedBlock, sample: number): number | null => {
    const count = soundCount(checked, column, sample);
    if (count === null) return null;
    const value = valueOfCount(count, counted);
    return Number.isFinite(value) ? value : null;
  };
  return Object.assign(read, { unit: counted.unit });
}
