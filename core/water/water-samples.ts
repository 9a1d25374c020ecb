import { Fault } from '../fault/fault.ts';
import type { Advice } from '../quantity/advice.ts';
import { checkRange } from '../quantity/check.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import { freshWaterDensityKgM3, seaWaterDensityKgM3 } from './density.ts';

/** One hydrometer reading of water drawn beside the vessel. */
export interface WaterSample {
  /** Where it was drawn: forward, amidships... */
  readonly place: string;
  readonly densityKgM3: number;
  /** Null: not taken, and then plausibility cannot be judged. */
  readonly temperatureC: number | null;
}

export interface WaterFound {
  /** At the temperature of the water she floats in; never reduced to 15 deg C. */
  readonly densityKgM3: Uncertain;
  readonly advice: readonly Advice[];
}

const MOST_SAMPLES = 60;
/** Saltier than any water vessels lie in; the open ocean has about 35. Our setting. */
const MOST_SALINITY = 41;
/** Fresh water carries silt and salts; under this below pure water it is a misreading. Our setting. */
const BELOW_FRESH_KG_M3 = 1;
/** Samples farther apart than this many standard errors of two readings are not one water. Ours. */
const APART = 3;
/** No hydrometer is read closer than this. Our setting. */
const LEAST_READING_KG_M3 = 0.1;

/**
 * Density of the water from samples: their mean. The hydrometer's own standard uncertainty is
 * common to all of them; their scatter comes on top where there is more than one. The glass and
 * the hull grow with warmth nearly alike, so a reading in water at the temperature she floats in
 * is used as it is read (Marshall, Stokoe, Strange & Turner on draught surveys) and nothing is
 * reduced to 15 deg C. Throws `input-too-few`, `input-too-large`, `input-range`.
 */
export function waterFromSamples(
  samples: readonly WaterSample[],
  hydrometerUncertaintyKgM3: number,
): WaterFound {
  if (samples.length === 0) throw new Fault('input-too-few', 'water samples', 'none was taken');
  if (samples.length > MOST_SAMPLES) {
    throw new Fault('input-too-large', 'water samples', `${samples.length}`);
  }
  const own = checkRange(hydrometerUncertaintyKgM3, 0, 50, 'hydrometer uncertainty, kg/m3');
  const read = samples.map(({ place, densityKgM3 }) =>
    checkRange(densityKgM3, 950, 1250, `density ${place}, kg/m3`),
  );
  const mean = read.reduce((sum, one) => sum + one, 0) / read.length;
  const freedom = read.length - 1;
  const squares = read.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const scatterVariance = freedom > 0 ? squares / freedom / read.length : 0;
  const standardUncertainty = Math.hypot(own, Math.sqrt(scatterVariance));
  return {
    densityKgM3: {
      value: mean,
      standardUncertainty,
      degreesOfFreedom:
        scatterVariance === 0
          ? Number.POSITIVE_INFINITY
          : freedom * (standardUncertainty ** 4 / scatterVariance ** 2),
    },
    advice: [...samples.flatMap(implausible), ...notOneWater(samples, own)],
  };
}

/** Can water of that temperature be so light or so heavy at all? */
function implausible({ place, densityKgM3, temperatureC }: WaterSample): Advice[] {
  if (temperatureC === null) {
    const none = { found: null, limit: null, unit: 'deg C' };
    return [{ code: 'water-temperature-missing', where: place, ...none }];
  }
  const t = checkRange(temperatureC, -2, 40, `temperature ${place}, deg C`);
  const seen = { where: place, found: densityKgM3, unit: 'kg/m3' };
  const lightest = freshWaterDensityKgM3(Math.max(0, t)) - BELOW_FRESH_KG_M3;
  const heaviest = seaWaterDensityKgM3(MOST_SALINITY, t);
  if (densityKgM3 < lightest) return [{ code: 'water-too-light', ...seen, limit: lightest }];
  if (densityKgM3 > heaviest) return [{ code: 'water-too-heavy', ...seen, limit: heaviest }];
  return [];
}

function notOneWater(samples: readonly WaterSample[], own: number): Advice[] {
  const read = samples.map((one) => one.densityKgM3);
  const apart = Math.max(...read) - Math.min(...read);
  const limit = APART * Math.SQRT2 * Math.max(own, LEAST_READING_KG_M3);
  if (samples.length < 2 || apart <= limit) return [];
  return [{ code: 'water-layered', where: 'all samples', found: apart, limit, unit: 'kg/m3' }];
}
