import { z } from 'zod';

const finite = z.number();
const verdict = z.enum(['steady', 'settling', 'disturbed', 'silent']);

/** `steady --json`, as it is printed. Times are the table's, heel in degrees, starboard down positive. */
export const steadyOutput = z.strictObject({
  instruments: z.array(z.string()),
  fromS: finite,
  toS: finite,
  samples: z.number().int(),
  /** Samples that came at or before a time already taken, and were not used. */
  late: z.number().int(),
  stretches: z.array(
    z.strictObject({
      fromS: finite,
      toS: finite,
      verdict,
      reason: z.string(),
      /** As known at the end of the stretch; to be read only where the verdict is steady. */
      heel: z
        .strictObject({
          heelDeg: finite,
          standardErrorDeg: z.number().positive(),
          degreesOfFreedom: z.number().positive(),
          halfWidth95Deg: z.number().positive(),
          countedS: finite,
          rollPeriodS: finite.nullable(),
          dampingRatio: finite.nullable(),
        })
        .nullable(),
    }),
  ),
  notUsed: z.array(
    z.strictObject({
      fromS: finite,
      toS: finite,
      kind: z.string(),
      instruments: z.array(z.string()).nullable(),
      evidence: z.string(),
    }),
  ),
});
