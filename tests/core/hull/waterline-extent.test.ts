import { expect, test } from 'vitest';
import { waterlineAtDraught } from '#core/hull/waterline.ts';
import { waterlineExtent } from '#core/hull/waterline-extent.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { prism, wigley } from './hulls.ts';

test('a Wigley hull is as long and as broad as its formula at any draught', () => {
  // half-breadth (B / 2)(1 - (2 x / L - 1)2)(1 - (1 - z / T)2)
  const hull = wigley(16, 3.2, 1.5, 21, 11);
  const found = waterlineExtent(hull, waterlineAtDraught(1.2))!;
  expect(found.toXM - found.fromXM).toBeCloseTo(16, 2);
  expect(found.beamM).toBeCloseTo(3.2 * (1 - 0.2 ** 2), 3);
});

test('on a raked stem the waterline ends where the keel line leaves the water', () => {
  const hull = marramHull();
  const [low, high] = [1.1, 1.6].map(
    (draught) => waterlineExtent(hull, waterlineAtDraught(draught))!,
  );
  expect(high!.toXM).toBeGreaterThan(low!.toXM + 0.05);
  expect(high!.toXM).toBeLessThan(hull.toXM);
  expect(high!.beamM).toBeGreaterThan(low!.beamM);
});

test('deck under water: the deck, and nothing where there is no water', () => {
  const box = prism(20, 5, [
    [0, 0],
    [3, 0],
    [2.5, 3],
  ]);
  expect(waterlineExtent(box, waterlineAtDraught(3.4))!.beamM).toBeCloseTo(5, 9);
  expect(waterlineExtent(box, waterlineAtDraught(-1))).toBeNull();
});
