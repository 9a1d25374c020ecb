import { z } from 'zod';

/** The survey of what is aboard: what is not part of the ship, what is missing, who stands where. Metres, tonnes. */
const name = z.string().trim().min(1).max(64);
const text = z.string().max(500);
const finite = z.number();
const uncertainty = z.number().nonnegative();
const line = z.number().int().nonnegative();

/** Ship axes: forward of the after perpendicular, to starboard, over the baseline. */
const place = z.strictObject({ xM: finite, yM: finite, zM: finite });

/**
 * What is done with a thing to come from the vessel as inclined to the lightship. `to-be-fitted`
 * is part of the lightship and not aboard yet: the result is then provisional.
 */
export const ITEM_KINDS = [
  'deduct',
  'add',
  'relocate',
  'to-be-fitted',
  'person',
  'own-gear',
  'test-weight',
  'liquid',
] as const;

export const surveyItem = z.strictObject({
  item: name,
  kind: z.enum(ITEM_KINDS),
  massT: z.number().positive(),
  massUncertaintyT: uncertainty,
  at: place,
  /** Of each coordinate. */
  placeUncertaintyM: uncertainty,
  /** Where a thing to be relocated goes. */
  to: place.optional(),
  /** Weighed or estimated by one scale or one judgement: errors of one name are one error, relative. */
  massScale: z
    .strictObject({ name, uncertaintyShare: z.number().nonnegative().max(0.5) })
    .optional(),
  /** Number of the record's line that holds its photograph. */
  photographLine: line.nullable(),
  note: text.optional(),
});
export type SurveyItem = z.infer<typeof surveyItem>;

/** What may be taken to belong to the lightship or not, and must be agreed beforehand. */
export const LIGHTSHIP_MATTERS = [
  'fluids-in-systems',
  'permanent-ballast',
  'spares',
  'live-well',
  'anchor-and-chain',
  'fishing-gear',
  'safety-equipment',
  'trapped-water',
] as const;

export const lightshipMatter = z.strictObject({
  matter: z.enum(LIGHTSHIP_MATTERS),
  agreed: z.enum(['in', 'out', 'not-there', 'open']),
  note: text.optional(),
});

export const lightshipSheet = z.strictObject({
  matters: z.array(lightshipMatter).max(LIGHTSHIP_MATTERS.length),
  /** Who agreed, and before which the test was not begun. */
  agreedBy: z.array(name).max(6),
});

export const surveyInput = z.strictObject({
  sheet: lightshipSheet.optional(),
  items: z.array(surveyItem).max(400),
});
export type SurveyInput = z.infer<typeof surveyInput>;
