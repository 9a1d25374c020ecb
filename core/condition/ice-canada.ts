import { z } from 'zod';
import type { ItemInput } from './item.ts';

const metres = z.number().min(-450).max(450);
const name = z.string().min(1).max(64);
const at = z.strictObject({ xM: metres, yM: metres, zM: metres });
const surfaces = z
  .array(z.strictObject({ name, areaM2: z.number().nonnegative().max(10_000), at }))
  .max(40);

/** What ice settles on by the Canadian regulation; each side of her is entered by itself. */
export const canadianIceInput = z.strictObject({
  trawler: z.enum(['side', 'stern']).describe('how she works her gear: it sets the least height'),
  deckZM: metres.describe('of the deck over which the least height is counted'),
  decks: surfaces.describe('exposed decks'),
  faces: surfaces.describe('fronts and sides of houses, bulwarks'),
  fittings: surfaces.describe('rails, coamings, fittings'),
  rigging: z
    .array(z.strictObject({ name, lengthM: z.number().nonnegative().max(1000), at }))
    .max(40)
    .describe('up to 6.1 m over the deck'),
});
export type CanadianIce = z.infer<typeof canadianIceInput>;

/** Consolidated Regulations of Canada c. 1435 s. 9(6) and (7). */
const KG_M2 = { decks: 54, faces: 37, fittings: 78 } as const;
const RIGGING_KG_M = 48;
/** Least height of the ice's centre of gravity over the deck, m. */
const LEAST_OVER_DECK_M = { side: 2.44, stern: 1.22 } as const;

/**
 * The ice as items. Where its centre of gravity together lies lower than the regulation's least height,
 * all of it is raised by what is wanting.
 */
export function canadianIceItems(ice: CanadianIce): ItemInput[] {
  const item = (what: string, massKg: number, place: ItemInput['at']): ItemInput => ({
    item: `ice on ${what}`.slice(0, 64),
    use: 'ice-accretion',
    massT: massKg / 1000,
    at: place,
  });
  const on = (kind: keyof typeof KG_M2) =>
    ice[kind].map((one) => item(one.name, KG_M2[kind] * one.areaM2, one.at));
  const items = [
    ...on('decks'),
    ...on('faces'),
    ...on('fittings'),
    ...ice.rigging.map((one) => item(one.name, RIGGING_KG_M * one.lengthM, one.at)),
  ].filter(({ massT }) => massT > 0);
  const massT = items.reduce((sum, one) => sum + one.massT, 0);
  if (massT === 0) return items;
  const heightM = items.reduce((sum, one) => sum + one.massT * one.at.zM, 0) / massT;
  const wantingM = Math.max(0, ice.deckZM + LEAST_OVER_DECK_M[ice.trawler] - heightM);
  return items.map((one) => ({ ...one, at: { ...one.at, zM: one.at.zM + wantingM } }));
}
