import { z } from 'zod';
import { keptRollTest } from '../reduction/roll-history.ts';
import { rollRunOutput } from '../reduction/roll-output.ts';

const name = z.string().min(1).max(64);

/** Which samples a run was looked for in, so that anyone can look again: counts of lines, as of a reading. */
const lookedIn = z.strictObject({
  startedLines: z.number().int().nonnegative(),
  afterLines: z.number().int().nonnegative(),
  marked: z.strictObject({ fromS: z.number(), toS: z.number() }).nullable(),
  /** Only after this receiver time; null: from the beginning. */
  afterS: z.number().nullable(),
});

/** A stretch of free roll, or of what was taken for one and is none; receiver time, by one instrument. */
export const rollRunLine = z.strictObject({
  by: z.enum(['found', 'marked']),
  instrument: name,
  estimator: z.string().min(1).max(40),
  run: rollRunOutput,
  /** The same stretch by the other instruments, where they show one. */
  others: z
    .array(
      z.strictObject({
        instrument: name,
        periodS: z.number().positive(),
        standardUncertaintyS: z.number().positive(),
      }),
    )
    .max(12),
  /** Missing in records made before runs said so. */
  taken: lookedIn.optional(),
});
/** More earlier tests than any vessel has. */
const MOST_EARLIER = 50;

/** In which condition she is rolled, and what earlier tests of hers found; the newest such line holds. */
export const rollConditionLine = z.strictObject({
  /** Fuel, water, gear, fish, people aboard: only like conditions are compared. Null: not said. */
  condition: z.string().trim().min(1).max(300).nullable(),
  /** Mean moulded draught, m, for GM by C. */
  draughtM: z.number().positive().nullable(),
  /** In any order. */
  earlier: z.array(keptRollTest).max(MOST_EARLIER),
});
export type RollConditionLine = z.infer<typeof rollConditionLine>;

export type RollRunLine = z.infer<typeof rollRunLine>;
