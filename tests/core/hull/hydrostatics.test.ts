import { expect, it } from 'vitest';
import { hydrostaticsAt } from '#core/hull/hydrostatics.ts';
import { waterlineAtDraught, waterlineFromDraughts } from '#core/hull/waterline.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { prism } from './hulls.ts';

it('gives a box everything in closed form', () => {
  const box = prism(20, 5, [
    [0, 0],
    [3, 0],
    [3, 3],
  ]);
  const set = hydrostaticsAt(box, waterlineAtDraught(1.5), 1.025, 2.2);
  expect(set.displacementT).toBeCloseTo(184.5, 10);
  expect(set.buoyancy.xM).toBeCloseTo(10, 12);
  expect(set.kmTransverseM).toBeCloseTo(2.75, 12);
  expect(set.bmLongitudinalM).toBeCloseTo(400 / 18, 10);
  expect(set.immersionTPerCm).toBeCloseTo(1.23, 12);
  expect(set.trimMomentTMPerCm).toBeCloseTo((184.5 * (400 / 18 + 0.75 - 2.2)) / 2000, 9);
  const withRadius = hydrostaticsAt(box, waterlineAtDraught(1.5), 1.025);
  expect(withRadius.trimMomentTMPerCm).toBeCloseTo((184.5 * (400 / 18)) / 2000, 9);
});

it('is the change of what it says: tonnes and moment for a centimetre', () => {
  const hull = marramHull();
  const at = (aftM: number, forwardM: number) =>
    hydrostaticsAt(
      hull,
      waterlineFromDraughts({ xM: 0, draughtM: aftM }, { xM: 15, draughtM: forwardM }),
      1.025,
    );
  const set = at(1.4, 1.4);
  const deeper = at(1.405, 1.405).displacementT - at(1.395, 1.395).displacementT;
  expect(Math.abs(deeper / set.immersionTPerCm - 1)).toBeLessThan(1e-3);
  // A centimetre of trim about the centre of flotation.
  const share = set.flotation.xM / 15;
  const trimmed = at(1.4 + 0.01 * share, 1.4 - 0.01 * (1 - share));
  const moment = (set.buoyancy.xM - trimmed.buoyancy.xM) * set.displacementT;
  expect(Math.abs(moment / set.trimMomentTMPerCm - 1)).toBeLessThan(5e-3);
});
