import { describe, expect, it } from 'vitest';
import {
  type CanadianIce,
  canadianIceInput,
  canadianIceItems,
} from '#core/condition/ice-canada.ts';

const at = (zM: number) => ({ xM: 5, yM: 0, zM });
const ice: CanadianIce = canadianIceInput.parse({
  trawler: 'stern',
  deckZM: 2,
  decks: [{ name: 'main deck', areaM2: 100, at: at(2) }],
  faces: [{ name: 'house front', areaM2: 10, at: at(3) }],
  fittings: [{ name: 'rails', areaM2: 10, at: at(3) }],
  rigging: [{ name: 'mast stays', lengthM: 25, at: at(5) }],
});

const together = (items: ReturnType<typeof canadianIceItems>) => {
  const massT = items.reduce((sum, one) => sum + one.massT, 0);
  return { massT, zM: items.reduce((sum, one) => sum + one.massT * one.at.zM, 0) / massT };
};

// Consolidated Regulations of Canada c. 1435 s. 9(6), (7): 54, 37, 78 kg/m2, 48 kg/m, 1.22 and 2.44 m.
describe('ice by the Canadian regulation', () => {
  it('weighs each surface by its figure', () => {
    expect(canadianIceItems(ice).map((one) => one.massT)).toEqual([
      expect.closeTo(5.4, 12),
      expect.closeTo(0.37, 12),
      expect.closeTo(0.78, 12),
      expect.closeTo(1.2, 12),
    ]);
  });

  it('lies no lower than the least height over the deck, and is not lowered to it', () => {
    expect(together(canadianIceItems(ice)).zM).toBeCloseTo(3.22, 12);
    expect(together(canadianIceItems({ ...ice, trawler: 'side' })).zM).toBeCloseTo(4.44, 12);
    const high = canadianIceItems({ ...ice, decks: [], faces: [], fittings: [] });
    expect(high.map((one) => one.at.zM)).toEqual([5]);
  });

  it('is none where there is nothing for it to settle on', () => {
    expect(canadianIceItems({ ...ice, decks: [], faces: [], fittings: [], rigging: [] })).toEqual(
      [],
    );
  });
});
