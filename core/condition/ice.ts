import { z } from 'zod';
import type { ItemInput } from './item.ts';

const area = z.number().nonnegative().max(10_000);
const metres = z.number().min(-450).max(450);

/** What ice can settle on, measured from her drawings. Both sides of her are alike. */
export const icedAreas = z.strictObject({
  decks: z
    .array(
      z.strictObject({
        name: z.string().min(1).max(64),
        areaM2: area,
        at: z.strictObject({ xM: metres, yM: metres, zM: metres }),
      }),
    )
    .max(40)
    .describe('exposed decks, tops of houses, gangways'),
  sides: z
    .array(
      z.strictObject({
        name: z.string().min(1).max(64),
        areaM2: area.describe('of one side, projected'),
        at: z.strictObject({ xM: metres, zM: metres }),
      }),
    )
    .max(40)
    .describe('above the waterline'),
});
export type IcedAreas = z.infer<typeof icedAreas>;

/** Weight of ice an authority asks for. */
export interface IceAllowance {
  readonly decksKgM2: number;
  readonly sidesKgM2: number;
  /** Sundry small objects, rails and rigging: added to the area of the sides and to their moment. */
  readonly sundryAreaShare: number;
  readonly sundryMomentShare: number;
  readonly source: string;
}

/** Spain; the IMO code has the same figures (from memory). */
export const ICE_RD_543_2007: IceAllowance = {
  decksKgM2: 30,
  sidesKgM2: 7.5,
  sundryAreaShare: 0.05,
  sundryMomentShare: 0.1,
  source: 'RD 543/2007 annex II 6(a)',
};

/** Twice in the north-west Atlantic zone, half in zone B (RD 543/2007 annex II 6(a)). */
export const ICE_ZONE_TIMES = { usual: 1, 'north-west-atlantic': 2, 'zone-b': 0.5 } as const;
export type IceZone = keyof typeof ICE_ZONE_TIMES;

/**
 * The ice as items: decks, and the sides of both sides with rails and rigging. The share of moment for
 * these is taken of height over the baseline, as a mass a little higher: mass grows by the share of
 * area, height so that the moment grows by its share.
 */
export function iceItems(areas: IcedAreas, allowance: IceAllowance, zone: IceZone): ItemInput[] {
  const times = ICE_ZONE_TIMES[zone];
  const { sundryAreaShare, sundryMomentShare } = allowance;
  const decks = areas.decks.map(({ name, areaM2, at }): ItemInput => {
    const massT = (times * allowance.decksKgM2 * areaM2) / 1000;
    return { item: `ice on ${name}`.slice(0, 64), use: 'ice-accretion', massT, at };
  });
  const sides = areas.sides.map(({ name, areaM2, at }): ItemInput => {
    const bareT = (times * allowance.sidesKgM2 * 2 * areaM2) / 1000;
    return {
      item: `ice on both sides of ${name}`.slice(0, 64),
      use: 'ice-accretion',
      massT: bareT * (1 + sundryAreaShare),
      at: { xM: at.xM, yM: 0, zM: (at.zM * (1 + sundryMomentShare)) / (1 + sundryAreaShare) },
    };
  });
  return [...decks, ...sides].filter((one) => one.massT > 0);
}
