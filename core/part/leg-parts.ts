import type { FaultCode } from '../fault/fault.ts';
import * as abp2 from './abp2.ts';
import * as ads1115 from './ads1115.ts';
import type { AsBuilt } from './as-built.ts';
import { levelMmFromVolts, loopIsSound } from './current-loop-level.ts';
import * as mpx5010 from './mpx5010.ts';
import { heightMmOfPressure } from './water-column.ts';

/** What a water tube needs to know of the part that reads one of its legs. */
export interface LegPart {
  /**
   * `level`: along the leg, so that the legs differ by span times the tangent of heel. `pressure`:
   * at its foot, so that they differ by span times the sine.
   */
  readonly senses: 'level' | 'pressure';
  /** One converter reads both legs, or each leg has a part of its own. */
  readonly oneForBoth: boolean;
  /** Columns besides the leg's own that its level is made of. */
  readonly beside: readonly string[];
  /** Height of the water, mm over the part's own zero; null when no sound part gives such counts. */
  levelMm(counts: readonly number[], asBuilt: AsBuilt | undefined): number | null;
  /** What a null is called. */
  readonly unsound: FaultCode;
  /** Of the part's own temperature column; null: it has none. */
  readonly temperatureC: ((counts: number) => number) | null;
  /** What `asBuilt` lacks for a level, in words; null: nothing. */
  lacks(asBuilt: AsBuilt | undefined): string | null;
}

function abp2LevelMm(counts: number, asBuilt: AsBuilt | undefined): number | null {
  const range = asBuilt?.pressureRangePa;
  if (range === undefined) throw new RangeError('the range of an ABP2 has to be said');
  return heightMmOfPressure(abp2.pressurePaFromCounts(counts, range), asBuilt?.liquidKgM3);
}

const PARTS: Readonly<Record<string, LegPart>> = {
  ads1115: {
    senses: 'level',
    oneForBoth: true,
    beside: [],
    levelMm([counts]) {
      const volts = ads1115.voltsFromCounts(counts!);
      return loopIsSound(volts) ? levelMmFromVolts(volts) : null;
    },
    unsound: 'leg-loop-broken',
    temperatureC: null,
    lacks: () => null,
  },
  mpx5010: {
    senses: 'pressure',
    oneForBoth: false,
    beside: ['supply'],
    levelMm([counts, supply], asBuilt) {
      if (!mpx5010.isSound(counts!, supply!)) return null;
      const ratio = mpx5010.ratioFromCounts(counts!, supply!);
      return heightMmOfPressure(mpx5010.pressurePaFromRatio(ratio), asBuilt?.liquidKgM3);
    },
    unsound: 'leg-pressure-unsound',
    temperatureC: null,
    lacks: () => null,
  },
  abp2: {
    senses: 'pressure',
    oneForBoth: false,
    beside: [],
    levelMm: ([counts], asBuilt) => abp2LevelMm(counts!, asBuilt),
    unsound: 'leg-pressure-unsound',
    temperatureC: abp2.temperatureCFromCounts,
    lacks: (asBuilt) =>
      asBuilt?.pressureRangePa === undefined
        ? 'asBuilt.pressureRangePa, the range of the order code, in pascals'
        : null,
  },
};

/** Undefined for a part that reads no legs. */
export function legPart(part: string): LegPart | undefined {
  return Object.hasOwn(PARTS, part) ? PARTS[part] : undefined;
}
