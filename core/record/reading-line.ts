import { z } from 'zod';

const name = z.string().min(1).max(64);
const finite = z.number();
const line = z.number().int().nonnegative();

const measured = z.strictObject({
  heelDeg: finite,
  /** One standard error of the mean heel of this state by this instrument. */
  standardErrorDeg: z.number().positive(),
  degreesOfFreedom: z.number().positive(),
});

/**
 * Which lines a reading was estimated from, so that anyone can estimate it again: the watch took
 * what the first `afterLines` lines gave. Line counts, not numbers: `n` lines are lines 0 to n - 1.
 */
const takenOf = z.strictObject({
  /** Receiver time the watch was told it is. */
  nowS: finite,
  afterLines: line,
  /** Lines there were when this run of the receiver began to watch. */
  startedLines: line,
  /** When the state began to count, and the lines there were when the watch was told so. */
  sinceS: finite,
  sinceLines: line,
  /** Lines there were when the estimator was last started again within the run; null: never. */
  restartedLines: line.nullable(),
});
export type TakenOf = z.infer<typeof takenOf>;

export const reading = z.strictObject({
  state: z.number().int().nonnegative(),
  estimator: z.string().max(40),
  /** Receiver time of the samples used. */
  fromS: finite,
  toS: finite,
  countedS: z.number().positive(),
  joined: measured,
  instruments: z
    .array(
      measured.extend({
        instrument: name,
        label: name,
        certificate: name,
        sampleRateHz: z.number().positive(),
        /** Of the chip itself when the reading was taken; null: it tells none. Missing in older records. */
        temperatureC: finite.nullable().optional(),
      }),
    )
    .min(1)
    .max(12),
  rollPeriodS: z.number().positive().nullable(),
  dampingRatio: z.number().nullable(),
  /** One standard uncertainty of the period; missing in records made before readings said so. */
  rollPeriodUncertaintyS: z.number().positive().nullable().optional(),
  /** Missing in records made before readings said so. */
  taken: takenOf.optional(),
  /** Lines of the disturbances overruled whose time lies in this reading; missing: none. */
  overruled: z.array(line).min(1).max(200).optional(),
});
export type Reading = z.infer<typeof reading>;

/**
 * One moment that every instrument shows: said aloud, each reader marks their sheet, and where this
 * line stands among the samples is the mark in those of the sensors. Numbered from 1.
 */
export const timeMark = z.strictObject({
  mark: z.number().int().min(1).max(999),
  words: z.string().max(200),
});

/** Level differences are whole hundredths of a millimetre at the finest; sums of decimals are not. */
const SAME_MM = 1e-6;

export const handReading = z
  .strictObject({
    state: z.number().int().nonnegative(),
    instrument: name,
    kind: z.enum(['pendulum', 'u-tube']),
    /** Length of the pendulum from its pivot to the batten, or the span of the tube. */
    lengthMm: z.number().positive(),
    /** Successive extremes on the batten (level difference for a tube), starboard positive, in order. */
    extremesMm: z.array(finite).min(1).max(60),
    reader: name,
    /**
     * Had the receiver sent no heel of this state by the sensors to who entered it, and had their
     * screen shown none? Missing: not said.
     */
    blind: z.boolean().optional(),
    /**
     * Of a tube, each leg's level over its own mark, mm, one for each extreme: the extremes are starboard
     * less port. Missing: only the difference was read.
     */
    portLegMm: z.array(finite).min(1).max(60).optional(),
    starboardLegMm: z.array(finite).min(1).max(60).optional(),
    /** The last time mark that stands on the reader's own sheet. Missing: not said. */
    mark: z.number().int().min(1).max(999).optional(),
  })
  .refine(legsMakeExtremes, 'the legs do not make the extremes');
export type HandReading = z.infer<typeof handReading>;

function legsMakeExtremes(read: {
  kind: 'pendulum' | 'u-tube';
  extremesMm: readonly number[];
  portLegMm?: readonly number[] | undefined;
  starboardLegMm?: readonly number[] | undefined;
}): boolean {
  const { kind, extremesMm, portLegMm: port, starboardLegMm: starboard } = read;
  if (port === undefined && starboard === undefined) return true;
  if (kind !== 'u-tube' || port?.length !== extremesMm.length) return false;
  if (starboard?.length !== extremesMm.length) return false;
  return extremesMm.every((mm, k) => Math.abs(starboard[k]! - port[k]! - mm) <= SAME_MM);
}
