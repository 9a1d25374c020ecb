import { z } from 'zod';
import { RUN_REFUSALS } from './roll-forced.ts';
import { keptRollTest } from './roll-history.ts';

/**
 * What a roll test gives, as plain data. A value stands with one standard uncertainty, its degrees
 * of freedom (null: not limited by a count) and half the width of its 95 % interval. Nothing is
 * rounded. Seconds, degrees, metres.
 */
const finite = z.number();
const value = z.strictObject({
  value: finite,
  standardUncertainty: z.number().nonnegative(),
  degreesOfFreedom: z.number().positive().nullable(),
  halfWidth95: z.number().nonnegative(),
});
const froude = z.strictObject({ a: value, bPerDeg: value });

export const rollRunOutput = z.strictObject({
  fromS: finite,
  toS: finite,
  samples: z.number().int(),
  cycles: finite,
  periodS: value,
  dampingRatio: value,
  linear: z.strictObject({ periodS: value, dampingRatio: value }),
  froude: froude.extend({ shown: z.boolean() }).nullable(),
  offsetDeg: value,
  amplitudeFromDeg: finite,
  amplitudeToDeg: finite,
  noiseDeg: finite,
  drivenDeg: finite,
  evidence: z.strictObject({
    lostPerCycle: finite,
    lostPerCycleUncertainty: finite,
    leftOverShare: finite,
    leftOverCorrelation: finite,
    otherPeriodS: finite.nullable(),
    otherShare: finite,
    periodChange: finite.nullable(),
    periodChangeUncertainty: finite.nullable(),
  }),
  /** Null: a run of free roll. */
  refused: z.strictObject({ reason: z.enum(RUN_REFUSALS), words: z.string() }).nullable(),
});
export type RollRunOutput = z.infer<typeof rollRunOutput>;

export const rollPeriodOutput = z.strictObject({
  runs: z.number().int().positive(),
  enough: z.boolean(),
  periodS: value,
  dampingRatio: value,
  runsDiffer: z.boolean(),
  froude: froude.nullable(),
});
export type RollPeriodOutput = z.infer<typeof rollPeriodOutput>;

const gm = z.strictObject({
  by: z.enum(['table', 'c', 'own']),
  f: finite,
  fHalfWidth: finite.nullable(),
  gmFluidM: finite,
  halfWidthM: finite.nullable(),
  periodHalfWidthM: finite,
  small: z.boolean(),
  source: z.string(),
  /** Beside the GM measured by inclining; null: none was given. */
  beside: z
    .strictObject({
      differenceM: finite,
      halfWidthM: finite.nullable(),
      answer: z.enum(['no-evidence', 'disagrees', 'agrees']),
      words: z.string(),
    })
    .nullable(),
});

export const rollOutput = z.strictObject({
  instruments: z.array(
    z.strictObject({
      instrument: z.string(),
      samples: z.number().int(),
      /** Rows without a value, and rows at or before a time already taken. */
      missing: z.number().int(),
      late: z.number().int(),
      /** Stretches that may have been free roll, in order of time, also those refused. */
      runs: z.array(rollRunOutput),
      period: rollPeriodOutput.nullable(),
    }),
  ),
  /** The instrument whose period is used: most runs, then the smallest uncertainty. Null: no free roll. */
  used: z.string().nullable(),
  period: rollPeriodOutput.nullable(),
  gm: z.array(gm),
  /** What to keep of this test; null without a condition and a date. */
  kept: keptRollTest.nullable(),
  years: z
    .strictObject({
      vessel: z.string(),
      points: z.array(
        z.strictObject({
          date: z.string(),
          condition: z.string(),
          periodS: finite,
          halfWidth95S: finite,
          gmFluidM: finite.nullable(),
          sameCondition: z.boolean(),
        }),
      ),
      change: z.strictObject({ share: finite, halfWidth95: finite, gmShare: finite }).nullable(),
      words: z.string(),
    })
    .nullable(),
});
export type RollOutput = z.infer<typeof rollOutput>;
