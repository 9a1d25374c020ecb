import * as adxl355 from './adxl355.ts';
import type { AsBuilt } from './as-built.ts';
import * as iis2iclx from './iis2iclx.ts';
import * as lsm6dso from './lsm6dso.ts';

/** What heel needs to know of a part that feels gravity. */
export interface InclinometerPart {
  /** Columns of its acceleration that heel is made of, besides `temperature`. */
  readonly axes: readonly ['y'] | readonly ['y', 'z'];
  /**
   * Sine of the indicated heel from the counts of its axes, in their order: of two axes the
   * specific force along y over gravity, of three y over the resultant of y and z, in which local
   * gravity cancels. Null where the part hangs upside down or on its side.
   */
  sine(counts: readonly number[]): number | null;
  temperatureC(counts: number, asBuilt: AsBuilt | undefined): number;
  /** Why it is no more than a second sensor beside a better one; null: it is good enough alone. */
  readonly secondBecause: string | null;
}

/** sin(heel) where tan(heel) = y / z. */
function sineOfTwo(yG: number, zG: number): number | null {
  return zG > 0 ? yG / Math.hypot(yG, zG) : null;
}

const PARTS: Readonly<Record<string, InclinometerPart>> = {
  iis2iclx: {
    axes: ['y'],
    sine: ([y]) => iis2iclx.gFromCounts(y!),
    temperatureC: (counts) => iis2iclx.temperatureCFromCounts(counts),
    secondBecause: null,
  },
  adxl355: {
    axes: ['y', 'z'],
    sine: ([y, z]) => sineOfTwo(adxl355.gFromCounts(y!), adxl355.gFromCounts(z!)),
    temperatureC: (counts, asBuilt) =>
      adxl355.temperatureCFromCounts(counts, asBuilt?.temperatureInterceptCounts),
    secondBecause: null,
  },
  lsm6dso: {
    axes: ['y', 'z'],
    sine: ([y, z]) => sineOfTwo(lsm6dso.gFromCounts(y!), lsm6dso.gFromCounts(z!)),
    temperatureC: (counts) => lsm6dso.temperatureCFromCounts(counts),
    secondBecause: `its zero drifts by ${((lsm6dso.ZERO_PER_K_G * 180) / Math.PI).toFixed(4)} degree a kelvin`,
  },
};

/** Undefined for a part that is no inclinometer known here. */
export function inclinometerPart(part: string): InclinometerPart | undefined {
  return Object.hasOwn(PARTS, part) ? PARTS[part] : undefined;
}
