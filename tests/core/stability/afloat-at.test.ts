import { expect, test } from 'vitest';
import { liquidsMoving } from '#core/condition/liquid-at-heel.ts';
import { knAt } from '#core/hull/righting-lever.ts';
import { afloatAt } from '#core/stability/afloat-at.ts';
import { rectangularTank } from '#core/survey/tank-liquid.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';

const hull = marramHull();
const shape = rectangularTank({
  fromXM: 1,
  toXM: 6,
  fromYM: -1,
  toYM: 1.5,
  fromZM: 0.9,
  toZM: 1.6,
});
const liquid = { tank: 'long', shape, volumeM3: 4, densityTM3: 0.9 };
const floating = { hull, volumeM3: 50, displacementT: 51.25, centre: { xM: 6.9, yM: 0, zM: 1.6 } };

test('without liquids it is the hull at that heel, free to trim', () => {
  const found = afloatAt({ ...floating, moving: liquidsMoving([]) }, 0.4);
  const kn = knAt(hull, 50, 0.4, { freeAbout: { xM: 6.9, zM: 1.6 } });
  expect(found.knM).toBeCloseTo(kn.knM, 9);
  expect(found.liquidsM).toBe(0);
});

test('trim and liquids agree: as she lies, buoyancy is under the centre of all of it', () => {
  const moving = liquidsMoving([liquid]);
  const found = afloatAt({ ...floating, moving }, -0.35);
  const { trimRad } = found.waterline;
  const moved = moving(-0.35, trimRad);
  const centre = {
    xM: 6.9 + moved.xTM / 51.25,
    yM: moved.yTM / 51.25,
    zM: 1.6 + moved.zTM / 51.25,
  };
  const again = knAt(hull, 50, -0.35, { freeAbout: centre });
  expect(again.waterline.trimRad).toBeCloseTo(trimRad, 6);
  // to port the liquid runs to port, and takes lever away: levers to port are negative here
  expect(found.liquidsM).toBeLessThan(-0.005);
});
