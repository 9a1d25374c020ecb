import { z } from 'zod';

/**
 * What differs between two of the same part: what its order code says, and which of two published
 * values holds for it.
 */
export const asBuilt = z.strictObject({
  /** ADXL355: counts of its temperature sensor at 25 degC; 1852 by Rev. 0 of its sheet, 1885 later. */
  temperatureInterceptCounts: z.number().min(1).max(4095).optional(),
  /** ABP2: the gauge range of its order code, pascals at 10 % and at 90 % of its counts. */
  pressureRangePa: z
    .tuple([z.number().min(-2e6).max(2e6), z.number().min(-2e6).max(2e6)])
    .refine(([least, most]) => least < most, { message: 'the range does not rise' })
    .optional(),
  /** What the water tube is filled with, kg/m3, where pressures are turned into levels. */
  liquidKgM3: z.number().min(500).max(2000).optional(),
});
export type AsBuilt = z.infer<typeof asBuilt>;
