import { z } from 'zod';
import { type MassMoments, momentsAt } from '../survey/mass-moments.ts';

const name = z.string().trim().min(1).max(64);
const metres = z.number().min(-450).max(450);

const ITEM_USES = [
  'gear',
  'stores',
  'crew',
  'catch',
  'bait',
  'ice-in-hold',
  'deck-cargo',
  'ballast',
  'ice-accretion',
  'other',
] as const;

export const itemInput = z.strictObject({
  item: name,
  use: z.enum(ITEM_USES),
  massT: z.number().nonnegative().max(100_000),
  at: z.strictObject({ xM: metres, yM: metres, zM: metres }),
  massUncertaintyT: z.number().nonnegative().optional(),
  placeUncertaintyM: z.number().nonnegative().optional().describe('of each coordinate'),
  wetShare: z
    .number()
    .min(0)
    .max(1)
    .optional()
    .describe('water it carries, of its own mass; wet nets on deck 0.15 by RD 543/2007'),
});
export type ItemInput = z.infer<typeof itemInput>;

/** Water in nets and gear carried on deck: 15 % of their weight (RD 543/2007 annex II 3(f)2). */
export const WET_NET_SHARE = 0.15;

/** Mass with the water in it, and its moments. */
export function itemMoments(item: ItemInput): MassMoments {
  return momentsAt(item.massT * (1 + (item.wetShare ?? 0)), item.at);
}
