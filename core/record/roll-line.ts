import { z } from 'zod';
import { rollRunOutput } from '../reduction/roll-output.ts';

const name = z.string().min(1).max(64);

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
});
export type RollRunLine = z.infer<typeof rollRunLine>;
