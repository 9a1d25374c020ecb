import { expect, test } from 'vitest';
import { liquidsMoving } from '#core/condition/liquid-at-heel.ts';
import { heelLimits } from '#core/hull/righting-lever.ts';
import { heeledSide } from '#core/stability/heeled-side.ts';
import { sideSamples } from '#core/stability/side-samples.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';

const hull = marramHull();
const floating = {
  hull,
  volumeM3: 50,
  displacementT: 51.25,
  centre: { xM: 6.9, yM: 0, zM: 1.6 },
  moving: liquidsMoving([]),
};

test.each(['starboard', 'port'] as const)('%s: openings and deck edge as by exact cuts', (side) => {
  const way = side === 'starboard' ? 1 : -1;
  const found = heeledSide(hull, sideSamples(floating, way));
  const exact = heelLimits(hull, {
    volumeM3: 50,
    trimming: { freeAbout: floating.centre },
    kgM: 1.6,
    tcgM: 0,
    side,
  });
  expect(found.deckEdgeRad()).toBeCloseTo(exact.deckEdgeRad!, 4);
  for (const [k, opening] of hull.openings.entries()) {
    const immersed = exact.openings[k]!.immersedRad;
    if (immersed === null) expect(found.immersedRad(opening)).toBeNull();
    else expect(found.immersedRad(opening)).toBeCloseTo(immersed, 4);
  }
  expect(found.freeboardM(0)).toBeGreaterThan(0);
  expect(found.freeboardM(1)).toBeLessThan(0);
  expect(found.immersedRad({ xM: 7, yM: 0, zM: 0 })).toBe(0);
});
