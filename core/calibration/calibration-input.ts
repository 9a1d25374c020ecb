import { z } from 'zod';
import { calibratedItem } from '../sample/certificate.ts';

/** A calibration as it was written down or typed in: what was set, what was shown. Millimetres, degrees. */
const name = z.string().trim().min(1).max(64);
const text = z.string().trim().min(1).max(200);
const finite = z.number();
const uncertainty = z.number().nonnegative();
const positive = z.number().positive();

const way = z.enum(['up', 'down']);
const run = z.number().int().min(1).max(20);

const sineBar = z.strictObject({
  kind: z.literal('sine-bar'),
  /** The bar's own number: instruments calibrated on one bar share its error. */
  number: name,
  lengthMm: positive,
  lengthUncertaintyMm: uncertainty,
  heightUncertaintyMm: uncertainty,
});

const gaugeBlocks = z.strictObject({
  kind: z.literal('gauge-blocks'),
  number: name,
  settingUncertaintyMm: uncertainty,
  /** Shared by every setting, relative: the set's own certificate. */
  commonUncertaintyShare: uncertainty,
});

const common = {
  number: name,
  item: calibratedItem,
  madeBy: text,
  place: text,
  date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  temperatureC: finite.nullable(),
  gravityMS2: z.number().min(9.7).max(9.9).optional(),
  method: text.optional(),
  /** Zero and scale of the certificate before this one, in the unit of the fit: as found. */
  asFound: z.strictObject({ zero: finite, scale: positive }).optional(),
};

const temperatureRun = z
  .array(z.strictObject({ temperatureC: finite, indicated: finite }))
  .max(5000)
  .optional();

export const calibrationInput = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('inclinometer'),
    ...common,
    standard: sineBar,
    /** In the order they were taken: height under one roller, and what was shown. */
    points: z
      .array(z.strictObject({ heightMm: finite, indicatedDeg: finite, way, run }))
      .min(1)
      .max(500),
    reversal: z
      .array(z.strictObject({ firstDeg: finite, turnedDeg: finite }))
      .max(50)
      .optional(),
    /** Distances from a transverse frame to the base's edge, mm, aft positive. */
    alignment: z
      .strictObject({
        portMm: finite,
        starboardMm: finite,
        apartMm: positive,
        uncertaintyMm: uncertainty,
      })
      .optional(),
    /** Mean of each axis along gravity and against it, g: shows a damaged axis, gives no scale. */
    sixPositions: z
      .array(z.strictObject({ axis: z.enum(['x', 'y', 'z']), upG: finite, downG: finite }))
      .max(3)
      .optional(),
    /** Indicated in degrees, on a fixed plate. */
    temperatureRun,
    noiseDeg: positive.optional(),
  }),
  z.strictObject({
    kind: z.literal('water-tube'),
    ...common,
    standard: gaugeBlocks,
    /** One leg lifted by blocks: the difference of levels that was set, and what was shown. */
    points: z
      .array(z.strictObject({ differenceMm: finite, indicatedMm: finite, way, run }))
      .min(1)
      .max(500),
    /** After one leg was lifted at once: seconds since, and the difference shown. */
    step: z
      .array(z.strictObject({ timeS: finite, indicatedMm: finite }))
      .max(5000)
      .optional(),
    temperatureRun,
    noiseMm: positive.optional(),
  }),
]);
export type CalibrationInput = z.infer<typeof calibrationInput>;
