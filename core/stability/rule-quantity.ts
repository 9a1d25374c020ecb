import { z } from 'zod';
import { HEELING_MOMENTS, OPENING_STATES } from './evidence.ts';

/**
 * What a clause may ask for. A closed list: a rule set names a quantity and says its parameters as
 * data; it holds no formulas of its own. Heels in degrees from upright to the side looked at.
 */

const heelDeg = z.number().min(0).max(90);
const opened = z.enum(OPENING_STATES);
const moment = z.enum(HEELING_MOMENTS);
/** Levers count up to where the first opening taken as open comes under; `null`: as far as they go. */
const stops = opened.nullable();

const MOST_ROWS = 40;

/** A printed table of two columns, linear between rows, the end rows beyond them. */
export const printedTable = z
  .strictObject({
    at: z.array(z.number()).min(2).max(MOST_ROWS),
    value: z.array(z.number()).min(2).max(MOST_ROWS),
    /** Rows up to here are from memory: a value that uses one is not verified. */
    fromMemoryUpTo: z.number().optional(),
  })
  .refine(({ at, value }) => at.length === value.length, 'as many values as places')
  .refine(({ at }) => at.every((one, k) => k === 0 || one > at[k - 1]!), 'places must go up');
export type PrintedTable = z.infer<typeof printedTable>;

/** Wind on her side as a lever: pressure P by height, Lw1 = P A Z / (1000 g displacement). */
export const windLaw = z.strictObject({
  /** N/m2 by height of the area's centroid over the water, m. */
  pressure: printedTable,
});

/** Roll to windward: 109 k X1 X2 sqrt(r s) degrees, r = 0.73 + 0.6 OG/d. */
export const rollLaw = z.strictObject({
  /** By beam over draught. */
  x1: printedTable,
  /** By block coefficient. */
  x2: printedTable,
  /** By 100 Ak / (L B), for a round bilge with keels. */
  k: printedTable,
  kRoundBare: z.number().positive(),
  kSharp: z.number().positive(),
  /** By roll period, s; T = 2 C B / sqrt(GM), C = 0.373 + 0.023 B/d - 0.043 L/100. */
  s: printedTable,
});

export const quantity = z.discriminatedUnion('kind', [
  /** Area under the righting lever, m rad. `to` may be the heel of the greatest lever. */
  z.strictObject({
    kind: z.literal('area'),
    fromDeg: heelDeg,
    to: z.union([heelDeg, z.literal('maximum')]),
    stops,
  }),
  /** The greatest righting lever at heels from here to there, m. */
  z.strictObject({ kind: z.literal('lever'), fromDeg: heelDeg, toDeg: heelDeg, stops }),
  /** Heel of the greatest righting lever, degrees. */
  z.strictObject({ kind: z.literal('heel-of-maximum'), stops }),
  /** Heel up to which the righting lever stays positive, degrees. */
  z.strictObject({ kind: z.literal('range'), stops }),
  /** Upright metacentric height with the liquids counted, m. */
  z.strictObject({ kind: z.literal('gm-fluid') }),
  /** Metacentric height from a heel read under a known moment: moment / (displacement heel), m. */
  z.strictObject({ kind: z.literal('gm-of-heel'), moment }),
  /** Heel at which the first opening taken as open comes under, degrees. */
  z.strictObject({ kind: z.literal('downflooding'), opened }),
  /** Heel at which the deck edge comes under, degrees. */
  z.strictObject({ kind: z.literal('deck-edge') }),
  /** Least freeboard as she floats, m. */
  z.strictObject({ kind: z.literal('freeboard') }),
  /** Size of the trim, m. */
  z.strictObject({ kind: z.literal('trim') }),
  /** Heel at which she rests by herself, degrees. */
  z.strictObject({ kind: z.literal('list') }),
  /** Heel at which she rests under a moment, degrees. */
  z.strictObject({ kind: z.literal('heel-under-moment'), moment }),
  /** Least freeboard while she rests so, m. */
  z.strictObject({ kind: z.literal('freeboard-under-moment'), moment }),
  /** Greatest righting lever left over a moment's, up to a heel, m. */
  z.strictObject({ kind: z.literal('residual-lever'), moment, toDeg: heelDeg, stops }),
  /** Area left over a moment's lever, from the heel of rest to a heel, m rad. */
  z.strictObject({ kind: z.literal('residual-area'), moment, toDeg: heelDeg, stops }),
  /** A moment that comes at once: area left beyond the heel of rest over the area short of it. */
  z.strictObject({ kind: z.literal('sudden-moment'), moment, toDeg: heelDeg, stops }),
  /** Heel under the steady wind, degrees. */
  z.strictObject({ kind: z.literal('wind-heel'), wind: windLaw }),
  /** Gust after a roll to windward: area b over area a. */
  z.strictObject({
    kind: z.literal('wind-and-roll'),
    wind: windLaw,
    gustTimes: z.number().positive(),
    roll: rollLaw,
    toDeg: heelDeg,
    stops,
  }),
  /** Named so that it is not forgotten; must be shown otherwise. */
  z.strictObject({ kind: z.literal('not-computed'), why: z.string().min(1).max(300) }),
]);
export type Quantity = z.infer<typeof quantity>;

/** What a quantity is measured in, as a limit must be. */
export const DIMENSION_OF: Readonly<Record<Quantity['kind'], Dimension>> = {
  area: 'area',
  lever: 'length',
  'heel-of-maximum': 'heel',
  range: 'heel',
  'gm-fluid': 'length',
  'gm-of-heel': 'length',
  downflooding: 'heel',
  'deck-edge': 'heel',
  freeboard: 'length',
  trim: 'length',
  list: 'heel',
  'heel-under-moment': 'heel',
  'freeboard-under-moment': 'length',
  'residual-lever': 'length',
  'residual-area': 'area',
  'sudden-moment': 'ratio',
  'wind-heel': 'heel',
  'wind-and-roll': 'ratio',
  'not-computed': 'ratio',
};
export type Dimension = 'area' | 'length' | 'heel' | 'ratio';
