import { z } from 'zod';
import { spotChecksInput } from '../hull/hull-evidence.ts';
import {
  draughtMarkInput,
  freeboardInput,
  tankInput,
  waterlineInput,
  waterSampleInput,
} from '../reduction/float-input.ts';
import { seenSpace } from '../reduction/seen-spaces.ts';
import { testChoices } from '../reduction/test-input.ts';
import { LIGHTSHIP_MATTERS, lightshipMatter, surveyItem } from '../survey/survey-input.ts';

/**
 * What people enter about the vessel, the water, the tanks and all that is aboard: one line for one
 * row of one sheet. A newer line of the same sheet, occasion and key stands in the place of the one
 * it names; with no value it takes the row off. Metres, tonnes, degrees; see each sheet's own schema.
 */
const name = z.string().trim().min(1).max(64);
const line = z.number().int().nonnegative();
const uncertainty = z.number().nonnegative();

/** Before the first shift, or after the last one; what is entered once only stands before. */
export const OCCASIONS = ['before', 'closing'] as const;
export type Occasion = (typeof OCCASIONS)[number];

/** Characters of a hull's text: some six hundred sections of sixty points. */
export const MOST_HULL_CHARACTERS = 1_000_000;

const hullText = z.strictObject({
  /** A hull file (JSON), a table of offsets, points measured ashore, or hydrostatics as tables (CSV). */
  form: z.enum(['hull', 'offsets', 'points', 'tables']),
  /** The file it came from. */
  file: z.string().trim().min(1).max(200),
  text: z.string().min(1).max(MOST_HULL_CHARACTERS),
  /** With tables only: KN in the long form, and the water the displacements are stated for. */
  knText: z.string().min(1).max(MOST_HULL_CHARACTERS).nullable(),
  densityKgM3: z.number().positive().nullable(),
  /** Of the volume, relative, and of KM by the lines alone. */
  volumeUncertaintyShare: z.number().nonnegative().max(0.2),
  kmUncertaintyM: uncertainty,
  /** Does the lines plan fit this boat? What was measured of her against it. */
  spots: spotChecksInput.optional(),
});
export type HullText = z.infer<typeof hullText>;

/** What is looked at before the first shift and again at the end. */
export const DAY_CHECKS = [
  'lines-slack',
  'clear-of-fenders',
  'depth',
  'gangway-off',
  'decks-dry',
  'loose-gear-secured',
  'cross-connections-shut',
  'people-told-off',
  'free-swing',
] as const;

/** What a report says of the day in words. */
export const STATEMENTS = [
  'owner',
  'authority',
  'responsible',
  'place',
  'mooring',
  'wind',
  'current',
  'depth',
  'weather',
  'weight-handling',
  'variances-accepted',
  'authority-comments',
] as const;

/** The sheets, each with the value of one row; the row's key names it. */
export const ENTRY_SHEETS = {
  /** Key `vessel`. */
  vessel: waterlineInput.omit({ freeboards: true, marks: true }).extend({
    hydrometerUncertaintyKgM3: uncertainty,
    freeSurfaceUncertaintyShare: z.number().nonnegative().max(1),
  }),
  /** Key `hull`. */
  hull: hullText,
  /** Key `choices`: how the test is reduced. */
  choices: testChoices,
  /** Key: the point. */
  freeboard: freeboardInput.omit({ point: true }),
  mark: draughtMarkInput.omit({ point: true }),
  /** Key: the place. */
  water: waterSampleInput.omit({ place: true }),
  /** Key: the tank. */
  tank: tankInput.omit({ tank: true }),
  /** Key: the thing, or the person by name. */
  item: surveyItem.omit({ item: true, photographLine: true }),
  /** Key: the space. */
  space: seenSpace.omit({ space: true }),
  /** Key: one of the matters of the lightship. */
  matter: lightshipMatter.omit({ matter: true }),
  /** Key: who agreed to what the lightship holds. */
  agreed: z.strictObject({ as: name }),
  /** Key: the weight; a mass taken again, or by a second person. */
  weight: z.strictObject({ massT: z.number().positive(), by: name }),
  /** Key: the move, `state weight`; its distance measured by a second person. */
  distance: z.strictObject({
    /** Shift n of the plan. */
    state: z.number().int().positive().max(99),
    weight: name,
    distanceM: z.number(),
    by: name,
  }),
  /** Key: the instrument, shown its own zero. */
  zero: z.strictObject({ zeroDeg: z.number() }),
  check: z.strictObject({ holds: z.boolean(), note: z.string().max(500) }),
  statement: z.strictObject({ text: z.string().trim().min(1).max(2000) }),
} as const;
export type EntrySheet = keyof typeof ENTRY_SHEETS;
export type EntryValue<S extends EntrySheet> = z.infer<(typeof ENTRY_SHEETS)[S]>;

/** Keys of sheets that have no others. */
const KEYS: Partial<Record<EntrySheet, readonly [string, ...string[]]>> = {
  vessel: ['vessel'],
  hull: ['hull'],
  choices: ['choices'],
  matter: LIGHTSHIP_MATTERS,
  check: DAY_CHECKS,
  statement: STATEMENTS,
};

/** Sheets that are taken again at the end; the others stand once. */
const TAKEN_AGAIN: ReadonlySet<EntrySheet> = new Set([
  'freeboard',
  'mark',
  'water',
  'tank',
  'item',
  'weight',
  'zero',
  'check',
]);

function entryOf<S extends EntrySheet>(sheet: S) {
  const keys = KEYS[sheet];
  return z.strictObject({
    sheet: z.literal(sheet),
    occasion: TAKEN_AGAIN.has(sheet) ? z.enum(OCCASIONS) : z.literal('before'),
    key: keys === undefined ? name : z.enum(keys),
    /** Null takes the row off. */
    value: ENTRY_SHEETS[sheet].nullable() as z.ZodNullable<(typeof ENTRY_SHEETS)[S]>,
    /** Number of the line this one stands in the place of; null: there is none. */
    was: line.nullable(),
    /** It was first written on paper, and typed in later. */
    fromPaper: z.boolean(),
  });
}

export const entryLine = z.discriminatedUnion('sheet', [
  entryOf('vessel'),
  entryOf('hull'),
  entryOf('choices'),
  entryOf('freeboard'),
  entryOf('mark'),
  entryOf('water'),
  entryOf('tank'),
  entryOf('item'),
  entryOf('space'),
  entryOf('matter'),
  entryOf('agreed'),
  entryOf('weight'),
  entryOf('distance'),
  entryOf('zero'),
  entryOf('check'),
  entryOf('statement'),
]);
export type EntryLine = z.infer<typeof entryLine>;

/** A picture, scaled by the device that took it, and the row it is of. */
export const MOST_PHOTOGRAPH_BYTES = 1024 * 1024;
export const photographLine = z.strictObject({
  of: z
    .strictObject({
      sheet: z.enum(Object.keys(ENTRY_SHEETS) as [EntrySheet, ...EntrySheet[]]),
      key: name,
    })
    .nullable(),
  caption: z.string().max(200),
  /** JPEG, base64. */
  jpeg: z.base64().max(Math.ceil(MOST_PHOTOGRAPH_BYTES / 3) * 4),
});
