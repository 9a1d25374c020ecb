import type { FaultCode } from '../fault/fault.ts';
import { inclinometerPart } from '../part/inclinometer-parts.ts';
import { type Converter, columnOf, needPart, soundCount } from './checked-block.ts';
import { heelDegFromSine, type MountedInstrument } from './indicated-heel.ts';
import type { Channel } from './stream-item.ts';

/** Counts of an inclinometer's columns to heel. RangeError for a part that is none. */
export function inclinometerConverter(
  channels: readonly Channel[],
  of: MountedInstrument,
): Converter {
  const { instrument, asBuilt } = of.mounting;
  const across = columnOf(channels, instrument, 'y');
  const temperature = columnOf(channels, instrument, 'temperature');
  const part = inclinometerPart(across.part);
  if (part === undefined) throw new RangeError(`a ${across.part} is no inclinometer`);
  const axes = part.axes.map((axis) => columnOf(channels, instrument, axis));
  for (const column of [temperature, ...axes]) needPart(column, across.part);
  return (checked) => {
    const faults: [number, FaultCode][] = [];
    const heelAt = (sample: number): number | null => {
      const counts = axes.map((axis) => soundCount(checked, axis, sample));
      if (!counts.every((one) => one !== null)) return null;
      const sine = part.sine(counts);
      if (sine === null) faults.push([sample, 'sensor-upside-down']);
      return sine === null ? null : heelDegFromSine(sine, of);
    };
    const samples = checked.block.stepUs.map((_, sample) => sample);
    return {
      instrument,
      heelDeg: samples.map(heelAt),
      temperatureC: samples.map((sample) => {
        const counts = soundCount(checked, temperature, sample);
        return counts === null ? null : part.temperatureC(counts, asBuilt);
      }),
      calibrated: of.certificate !== null,
      faults,
    };
  };
}
