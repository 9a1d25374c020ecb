import fc from 'fast-check';
import { expect, it } from 'vitest';
import { labelPlaces } from '#ui/survey/label-places.ts';

it('keeps labels within the picture, apart, and in the order of what they name', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 400, noNaN: true }), { maxLength: 30 }),
      (wanted) => {
        const places = labelPlaces(wanted, 17, 0, 400);
        const step = Math.min(17, 400 / Math.max(1, wanted.length - 1));
        const order = wanted.map((_, k) => k).sort((a, b) => wanted[a]! - wanted[b]!);
        for (const [i, k] of order.entries()) {
          expect(places[k]).toBeGreaterThanOrEqual(-1e-9);
          expect(places[k]).toBeLessThanOrEqual(400 + 1e-9);
          if (i > 0)
            expect(places[k]! - places[order[i - 1]!]!).toBeGreaterThanOrEqual(step - 1e-9);
        }
      },
    ),
  );
});

it('leaves alone what is apart already', () => {
  expect(labelPlaces([300, 20, 120], 17, 0, 400)).toEqual([300, 20, 120]);
});
