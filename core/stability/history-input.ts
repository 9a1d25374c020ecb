import { z } from 'zod';
import { lightshipInput } from '../condition/lightship-input.ts';

const words = z.string().trim().min(1).max(200);
const metres = z.number().min(-450).max(450);
const place = z.strictObject({ xM: metres, yM: metres, zM: metres });
const day = z.iso.date();

/** Her earlier tests, and what was changed since the last of them. */
export const historyInput = z
  .strictObject({
    asOf: day.describe('the day for which it is asked'),
    carriesPassengers: z.boolean(),
    tests: z
      .array(
        z.strictObject({
          on: day,
          kind: z.enum(['inclining', 'lightship-survey']),
          lightship: lightshipInput,
          roll: z
            .strictObject({
              periodS: z.number().positive().max(60),
              standardUncertaintyS: z.number().positive(),
              condition: words.describe('only like conditions are compared'),
            })
            .optional(),
        }),
      )
      .min(1)
      .max(40),
    changes: z
      .array(
        z.strictObject({
          what: words,
          massT: z.number().positive().max(10_000),
          from: place.nullable().describe('null: it came aboard'),
          to: place.nullable().describe('null: it was taken off'),
        }),
      )
      .max(400)
      .describe('every single one since the last test, also those that cancel'),
  })
  .refine(
    ({ changes }) => changes.every(({ from, to }) => from !== null || to !== null),
    'a change neither came from nor went to anywhere',
  )
  .refine(
    ({ tests, asOf }) =>
      tests.every(({ on }, k) => on <= asOf && (k === 0 || tests[k - 1]!.on < on)),
    'tests in the order of their days, none after the day asked for',
  );
export type HistoryInput = z.infer<typeof historyInput>;
