import { z } from 'zod';

/** The form of a hull file. Lengths in metres, x forward of the after perpendicular, y starboard, z up from the baseline. */
const metres = z.number().min(-450).max(450);
const halfBreadth = z.number().min(0).max(450);
const name = z.string().min(1).max(120);

const section = z.strictObject({
  xM: metres,
  points: z
    .array(
      z.strictObject({ zM: metres, halfBreadthM: halfBreadth, knuckle: z.boolean().optional() }),
    )
    .min(1)
    .max(400)
    .describe('in order up the section; a repeated point is a knuckle'),
});
export type SectionInput = z.infer<typeof section>;

const appendage = z.strictObject({
  name,
  effect: z.enum(['buoyant', 'flooded']).describe('buoyant adds volume, flooded takes it away'),
  shape: z
    .enum(['centre', 'pair'])
    .describe('centre: outlines from the centre plane up; pair: closed outlines on each side'),
  sections: z.array(section).min(2).max(60),
});

const block = z
  .strictObject({
    name,
    fromXM: metres,
    toXM: metres,
    fromZM: metres,
    toZM: metres,
    halfBreadthM: halfBreadth.describe('at its foot'),
    halfBreadthAtTopM: halfBreadth.optional(),
  })
  .describe('a superstructure or trunk that keeps water out');

const opening = z.strictObject({
  name,
  xM: metres,
  yM: metres.describe('to starboard; negative to port'),
  zM: metres,
  closing: z.enum(['unprotected', 'weathertight']),
});

export const hullInput = z.strictObject({
  name,
  invented: z.boolean().optional().describe('true for a vessel that does not exist'),
  offsets: z
    .union([z.string().min(1).max(200), z.array(section).max(400)])
    .describe('the table of offsets, or the name of its CSV or XLSX file beside this one'),
  offsetsAre: z.enum(['moulded', 'outside']).describe('inside or outside of the shell'),
  shellThicknessM: z.number().min(0).max(0.3).optional().describe('needed with moulded offsets'),
  perpendiculars: z
    .strictObject({ aftXM: metres, forwardXM: metres })
    .optional()
    .describe('between them draughts and trim are stated; the ends of the hull where not given'),
  deckLine: z
    .array(z.strictObject({ xM: metres, zM: metres, camberM: z.number().min(0).max(2).optional() }))
    .min(2)
    .max(400)
    .optional()
    .describe(
      'height of the deck at side; the hull keeps water out up to it; the top of each section where not given',
    ),
  appendages: z.array(appendage).max(40).optional(),
  superstructures: z.array(block).max(20).optional(),
  openings: z.array(opening).max(60).optional(),
});
export type HullInput = z.infer<typeof hullInput>;
