import { z } from 'zod';
import { asBuilt } from '../part/as-built.ts';

const stated = z.strictObject({ value: z.number(), standardUncertainty: z.number().nonnegative() });
const word = z.string().min(1).max(64);

/** What one calibration was made of: it holds for this, where it is wired, under this seal. */
export const calibratedItem = z.strictObject({
  instrument: word,
  part: word,
  serial: word.optional(),
  board: word,
  bus: word,
  address: z.string().min(1).max(40),
  seal: word.optional(),
  firmware: word.optional(),
});

/**
 * What a calibration proved about one instrument, as far as the arithmetic needs it.
 * Inclinometers are fitted in sine space, `sin(true) = zero + scale * sin(indicated)`;
 * the water tube in level difference, `true = zero + scale * indicated`, millimetres.
 */
export const certificate = z.strictObject({
  number: z.string().min(1).max(64),
  instrument: z.string().min(1).max(64),
  method: z.string().min(1).max(200),
  madeBy: z.string().min(1).max(100),
  date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  zero: z.number(),
  scale: z.number().positive(),
  /** Standard uncertainty of the scale, relative (0.0015 is 0.15 %). */
  scaleUncertainty: z.number().positive(),
  /** Standard deviation left over by the fit, in the unit of the fit. */
  leftOver: z.number().nonnegative(),
  temperatureC: z.number().nullable(),
  /** Raw pairs [indicated, reference], in the unit of the fit. */
  points: z.array(z.tuple([z.number(), z.number()])).max(500),
  item: calibratedItem.optional(),
  place: z.string().min(1).max(200).optional(),
  /**
   * The standard it was made on, and the part of the scale's uncertainty that all instruments of
   * that standard share, relative. Absent in certificates of before: nothing is known to be shared.
   */
  standard: z.strictObject({ number: word, commonShare: z.number().nonnegative() }).optional(),
  /** What the calibration showed, in the unit of the fit; null: it did not show it. */
  proven: z
    .strictObject({
      zeroUncertainty: z.number().nonnegative(),
      largestResidual: z.number().nonnegative(),
      hysteresis: z.number().nonnegative().nullable(),
      repeatability: z.number().nonnegative().nullable(),
      zeroReturn: z.number().nullable(),
    })
    .optional(),
  /** Zero and scale of the certificate before, as found. */
  asFound: z.strictObject({ zero: z.number(), scale: z.number().positive() }).optional(),
  gravityMS2: z.number().positive().optional(),
  /** Of single smoothed samples at rest: degrees, of a water tube mm. */
  noise: z.number().positive().optional(),
  /** Zero by reversal, degrees. */
  reversal: stated.optional(),
  timeConstantS: stated.optional(),
  /** Drift of the zero with the instrument's own warmth, degrees (of a water tube mm) a kelvin. */
  temperature: z
    .strictObject({
      aboutC: z.number(),
      fromC: z.number(),
      toC: z.number(),
      perK: z.number(),
      perKUncertainty: z.number().nonnegative(),
      perK2: z.number(),
    })
    .optional(),
});
export type Certificate = z.infer<typeof certificate>;

/**
 * How an instrument stands in the vessel. `sign` +1 when a growing indication means starboard
 * down. `spanM` is the athwartships distance of the two legs of a water tube (tan(heel) =
 * level difference / span), null for an inclinometer.
 */
export const mounting = z.strictObject({
  instrument: z.string().min(1).max(64),
  /** As one calls it on deck: Fore, Aft, Water tube. */
  label: z.string().min(1).max(40),
  kind: z.enum(['inclinometer', 'water-tube']),
  sign: z.union([z.literal(1), z.literal(-1)]),
  spanM: z.number().positive().nullable(),
  /** Height over the roll axis, for what a roll adds to the reading; its mean is unchanged. */
  heightOverRollAxisM: z.number(),
  /** Seconds from a change of heel until the instrument itself has settled. */
  settlingS: z.number().nonnegative(),
  /** What of its part has to be said; absent: nothing differs from what core/part takes. */
  asBuilt: asBuilt.optional(),
});
export type Mounting = z.infer<typeof mounting>;
