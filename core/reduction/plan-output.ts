import { z } from 'zod';

/** What `plan` gives, as plain data; nothing is rounded. Uncertainties: half the 95 % interval. */
const finite = z.number();

export const planOutput = z.strictObject({
  heelwrightPlanForecast: z.literal(1),
  plan: z.string(),
  gmM: z.strictObject({ value: finite, halfWidth95: finite }),
  kgM: z.strictObject({ value: finite, halfWidth95: finite }).nullable(),
  /** Each cause's own standard uncertainty, mm, the largest first. */
  budget: z.array(z.strictObject({ cause: z.string(), gmMm: finite, kgMm: finite.nullable() })),
  shifts: z.array(
    z.strictObject({
      state: finite,
      heelingMomentTM: finite,
      heelDeg: finite,
      heelIfTenderDeg: finite.nullable(),
      heelIfStiffDeg: finite,
      stopDeg: finite,
      deflections: z.array(z.strictObject({ instrument: z.string(), mm: finite })),
    }),
  ),
  /** In words, as the day's own screens say them. */
  safety: z.array(z.string()),
  advice: z.array(
    z.strictObject({
      code: z.string(),
      where: z.string(),
      found: finite.nullable(),
      limit: finite.nullable(),
      unit: z.string(),
      means: z.string(),
      remedy: z.string(),
      clause: z.string(),
    }),
  ),
  beforeTheFirstShift: z.array(z.string()),
  stopRules: z.array(z.string()),
});
export type PlanOutput = z.infer<typeof planOutput>;
