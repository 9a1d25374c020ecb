import { describe, expect, it } from 'vitest';
import { immersed, wholeVolume } from '#core/hull/hull.ts';
import { hullInput } from '#core/hull/hull-input.ts';
import { hullFromOffsets, offsetsFromSections } from '#core/hull/make-hull.ts';
import { waterlineAtDraught } from '#core/hull/waterline.ts';

const boxSections = [0, 5, 10, 15, 20].map((xM) => ({
  xM,
  points: [
    { zM: 0, halfBreadthM: 0 },
    { zM: 0, halfBreadthM: 3 },
    { zM: 3, halfBreadthM: 3 },
  ],
}));
const table = offsetsFromSections(boxSections, 'box.json');
const parts = { name: 'box', offsetsAre: 'outside' } as const;
const volumeAt = (hull: ReturnType<typeof hullFromOffsets>, draughtM: number) =>
  immersed(hull, waterlineAtDraught(draughtM)).volumeM3;

describe('a hull and what belongs to it', () => {
  it('takes the top of the sections for the deck, or the deck line, with camber', () => {
    expect(wholeVolume(hullFromOffsets(table, parts)).volumeM3).toBeCloseTo(360, 9);
    const deckLine = [
      { xM: 0, zM: 2, camberM: 0.3 },
      { xM: 20, zM: 2, camberM: 0.3 },
    ];
    // Two triangles of deck over the box of 2 m.
    expect(wholeVolume(hullFromOffsets(table, { ...parts, deckLine })).volumeM3).toBeCloseTo(
      240 + 0.3 * 3 * 20,
      9,
    );
  });

  it('lays a shell on moulded offsets: sides and bottom out by it, the deck where it was', () => {
    const hull = hullFromOffsets(table, {
      name: 'box',
      offsetsAre: 'moulded',
      shellThicknessM: 0.01,
    });
    expect(volumeAt(hull, 1.5)).toBeCloseTo(20 * 6.02 * 1.51, 9);
    expect(wholeVolume(hull).volumeM3).toBeCloseTo(20 * 6.02 * 3.01, 9);
    expect(() => hullFromOffsets(table, { name: 'box', offsetsAre: 'moulded' })).toThrow(
      'input-contradiction',
    );
    expect(() => hullFromOffsets(table, { ...parts, shellThicknessM: 0.01 })).toThrow(
      'input-contradiction',
    );
  });

  it('adds what is buoyant, takes away what is flooded, on both sides where paired', () => {
    const square = (fromM: number) => [
      { zM: fromM, halfBreadthM: 0.5 },
      { zM: fromM + 0.5, halfBreadthM: 0.5 },
    ];
    const hull = hullFromOffsets(table, {
      ...parts,
      appendages: [
        {
          name: 'keel',
          effect: 'buoyant',
          shape: 'centre',
          sections: [
            { xM: 2, points: square(-0.5) },
            { xM: 12, points: square(-0.5) },
          ],
        },
        {
          name: 'tunnel',
          effect: 'flooded',
          shape: 'centre',
          sections: [
            { xM: 16, points: square(0.3) },
            { xM: 17, points: square(0.3) },
          ],
        },
        {
          name: 'bilge keels',
          effect: 'buoyant',
          shape: 'pair',
          sections: [5, 10].map((xM) => ({
            xM,
            points: [
              { zM: 0.5, halfBreadthM: 3 },
              { zM: 0.2, halfBreadthM: 3.3 },
              { zM: 0.5, halfBreadthM: 3.3 },
            ],
          })),
        },
      ],
      superstructures: [
        {
          name: 'trunk',
          fromXM: 6,
          toXM: 8,
          fromZM: 3,
          toZM: 4,
          halfBreadthM: 1,
          halfBreadthAtTopM: 0.5,
        },
      ],
    });
    const expected = 360 + 10 * 0.5 - 0.5 + 2 * 5 * 0.045;
    expect(volumeAt(hull, 3)).toBeCloseTo(expected, 9);
    expect(wholeVolume(hull).volumeM3).toBeCloseTo(expected + 2 * 1.5, 9);
  });

  it('states draughts at the perpendiculars given, else at its ends', () => {
    const hull = hullFromOffsets(table, { ...parts, perpendiculars: { aftXM: 1, forwardXM: 19 } });
    expect([hull.aftXM, hull.forwardXM]).toEqual([1, 19]);
    expect(hullFromOffsets(table, parts).forwardXM).toBe(20);
    const wrong = { ...parts, perpendiculars: { aftXM: 5, forwardXM: 5 } };
    expect(() => hullFromOffsets(table, wrong)).toThrow('input-contradiction');
  });

  it('reads all that from the form of a hull file', () => {
    const file = { ...parts, offsets: boxSections };
    expect(hullInput.parse(file)).toEqual(file);
    expect(hullInput.safeParse({ ...file, colour: 'red' }).success).toBe(false);
    expect(() => offsetsFromSections([], 'x')).toThrow('hull-few-stations');
  });
});
