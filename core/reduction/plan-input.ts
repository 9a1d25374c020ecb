import { z } from 'zod';

/** A test as it is planned: weights where they stand, the shifts, the instruments, what is guessed. */
const name = z.string().trim().min(1).max(64);
const finite = z.number();
const uncertainty = z.number().nonnegative();
const share = z.number().nonnegative().max(0.5);
const place = z.strictObject({ xM: finite, yM: finite, zM: finite });
const aboveZero = z.strictObject({
  value: z.number().positive(),
  standardUncertainty: uncertainty,
});

export const planInput = z.strictObject({
  heelwrightPlan: z.literal(1),
  name,
  displacementT: aboveZero,
  /** Height of the metacentre over the baseline, upright; left out: no KG, GM only. */
  kmM: aboveZero.optional(),
  /** The guess before the first shift. */
  gmGuessM: z.strictObject({
    value: z.number().positive(),
    standardUncertainty: z.number().positive(),
  }),
  /** A hull, so that deck edge and openings can be looked at. */
  hull: z
    .strictObject({
      file: z.string().min(1).max(300),
      densityKgM3: z.number().positive(),
      /** Tangent of the trim, positive by the stern. */
      trimSlope: finite.optional(),
    })
    .optional(),
  weights: z
    .array(
      z.strictObject({
        weight: name,
        massT: z.number().positive(),
        standardUncertaintyT: uncertainty,
        at: place,
      }),
    )
    .min(1)
    .max(24),
  massScaleUncertainty: share.optional(),
  distanceUncertaintyM: uncertainty,
  shifts: z
    .array(
      z.strictObject({
        moves: z
          .array(z.strictObject({ weight: name, to: place }))
          .min(1)
          .max(8),
      }),
    )
    .min(2)
    .max(40),
  instruments: z
    .array(
      z.strictObject({
        instrument: name,
        reads: z.enum(['deflection', 'level-difference', 'heel']),
        /** Of a pendulum from pivot to batten, or the span of a water tube. */
        lengthMm: z.number().positive().optional(),
        scaleUncertainty: share.optional(),
      }),
    )
    .max(12),
  angleScaleUncertainty: share.optional(),
  /** Of a state's heel as it will be read, all that scatters: instruments, wind, people. */
  stateUncertaintyDeg: z.number().positive(),
  /** Rules of the IS Code 8.4.1.2, off unless switched on. */
  skipRules: z
    .strictObject({ recheckAfterSeven: z.boolean(), completeAfterSix: z.boolean() })
    .optional(),
});
export type PlanInput = z.infer<typeof planInput>;
