import { expect, test } from 'vitest';
import { liquidsMoving } from '#core/condition/liquid-at-heel.ts';
import { leversThrough } from '#core/stability/sampled-levers.ts';
import { sideSamples } from '#core/stability/side-samples.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';

const floating = {
  hull: marramHull(),
  volumeM3: 50,
  displacementT: 51.25,
  centre: { xM: 6.9, yM: 0, zM: 1.6 },
  moving: liquidsMoving([]),
};
const leversOf = ({ heelsRad, at }: ReturnType<typeof sideSamples>) =>
  leversThrough(
    heelsRad,
    at.map(({ knM, heelRad }) => knM - 1.6 * Math.sin(heelRad)),
  );

test('areas do not depend on the steps: a curve of quarter degrees has the same', () => {
  const own = sideSamples(floating, 1);
  const heelsRad = Array.from({ length: 361 }, (_, k) => (k * Math.PI) / 720);
  const fine = sideSamples(floating, 1, { way: 1, heelsRad, at: [] });
  const [a, b] = [leversOf(own), leversOf(fine)];
  for (const heel of fine.heelsRad) {
    expect(Math.abs(a.leverM(heel) - b.leverM(heel))).toBeLessThan(1e-4);
    expect(Math.abs(a.areaMRad(0, heel) - b.areaMRad(0, heel))).toBeLessThan(4e-6);
  }
  // where the deck edge goes under, samples stand closer than elsewhere
  const steps = own.heelsRad.slice(1).map((heel, k) => heel - own.heelsRad[k]!);
  expect(Math.min(...steps.slice(5))).toBeLessThan(0.5 * Math.max(...steps));
});

test('to port is the mirror image, at the same heels', () => {
  const [starboard, port] = [sideSamples(floating, 1), sideSamples(floating, -1)];
  expect(port.heelsRad).toEqual(starboard.heelsRad);
  port.at.forEach(({ knM, waterline }, k) => {
    expect(knM).toBeCloseTo(-starboard.at[k]!.knM, 8);
    expect(waterline.trimRad).toBeCloseTo(starboard.at[k]!.waterline.trimRad, 8);
  });
});
