import { z } from 'zod';
import { ICE_ZONE_TIMES, type IceZone, icedAreas } from './ice.ts';
import { itemInput } from './item.ts';
import { fillingInput } from './space.ts';

/**
 * One trip from leaving to return, as told by who takes her to sea. The stages are those of RD 543/2007
 * annex II 3(a): departure; leaving the grounds; arrival with the full catch; arrival with a fifth of it.
 */
export const TRIP_STAGES = [
  'departure',
  'leaving-grounds',
  'arrival',
  'arrival-part-catch',
] as const;
export type TripStage = (typeof TRIP_STAGES)[number];

const words = z.string().trim().min(1).max(300);
const metres = z.number().min(-450).max(450);
const place = z.strictObject({ xM: metres, yM: metres, zM: metres });
const stages = z.array(z.enum(TRIP_STAGES)).min(1).max(TRIP_STAGES.length);
const share = z.number().min(0).max(1);
const zones = Object.keys(ICE_ZONE_TIMES) as [IceZone, ...IceZone[]];

/** What is used up, as a share of its tanks left when the grounds are left and on arrival. */
const consumable = z.strictObject({
  use: z.enum(['fuel', 'fresh-water', 'lubricating-oil']),
  leavingGroundsShare: share,
  arrivalShare: share,
});

export const tripInput = z.strictObject({
  trip: words,
  consumables: z.array(consumable).max(3).optional().describe('left out: 35 % and 10 %'),
  always: z.array(fillingInput).max(60).optional().describe('spaces filled alike all the way'),
  items: z
    .array(z.strictObject({ ...itemInput.shape, aboard: stages.describe('at which stages') }))
    .max(200),
  catch: z
    .strictObject({
      items: z.array(itemInput).max(20).describe('the full catch as it is stowed'),
      partShare: share.optional().describe('of the full catch; 20 % where left out'),
    })
    .nullable()
    .describe('null: she does not fish'),
  worst: z
    .strictObject({
      words: words.describe('what the worst moment is'),
      like: z.enum(TRIP_STAGES),
      items: z.array(itemInput).max(60),
    })
    .nullable()
    .describe('the worst moment of the trip; null: not said'),
  flooded: z
    .strictObject({
      space: z.string().min(1).max(64),
      share: share.optional().describe('of its capacity; half where left out'),
    })
    .nullable()
    .describe('the hold whose hatch is open while fishing; null: none'),
  ice: z
    .strictObject({ zone: z.enum(zones), areas: icedAreas })
    .nullable()
    .describe('null: no ice where she goes'),
  changes: z
    .array(z.strictObject({ what: words, massT: z.number().nullable(), at: place.nullable() }))
    .max(60)
    .describe('since she was built or last inclined; taken off: a negative mass'),
  wouldCarry: z
    .array(z.strictObject({ like: z.enum(TRIP_STAGES), items: z.array(itemInput).min(1).max(20) }))
    .max(10)
    .describe('what they would like to carry'),
});
export type TripInput = z.infer<typeof tripInput>;
