import { z } from 'zod';

/** One step down into the body of a line: the name of a field, or the place in a list from 0. */
const step = z.union([z.string().min(1).max(64), z.number().int().nonnegative().max(999)]);
const value = z.union([
  z.number(),
  z.string().max(500),
  z.null(),
  z.array(z.number()).min(1).max(60),
]);
export type FieldValue = z.infer<typeof value>;

/**
 * What was entered wrongly in an earlier line, put right. `was` is the value that stood there until
 * now (null also: none), so that a correction of something else than its author saw is refused, and
 * the line can be read by itself. Which fields of which lines: `correctable.ts`.
 */
export const correction = z.strictObject({
  line: z.number().int().nonnegative(),
  changes: z
    .array(z.strictObject({ field: z.array(step).min(1).max(6), was: value, is: value }))
    .min(1)
    .max(40),
  reason: z.string().trim().min(1).max(500),
});
export type Correction = z.infer<typeof correction>;
export type FieldPath = Correction['changes'][number]['field'];
