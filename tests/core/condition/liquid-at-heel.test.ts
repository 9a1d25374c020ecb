import fc from 'fast-check';
import { expect, test } from 'vitest';
import { liquidCentre, liquidsMoving } from '#core/condition/liquid-at-heel.ts';
import { liquidsLeverM } from '#core/reduction/liquids.ts';
import { liquidAtRest, rectangularTank } from '#core/survey/tank-liquid.ts';

const shape = rectangularTank({
  fromXM: 2,
  toXM: 5,
  fromYM: -1.2,
  toYM: 0.8,
  fromZM: 0.3,
  toZM: 1.5,
});
const CAPACITY = 3 * 2 * 1.2;

test('under 90 degrees it is the liquid of the test day, seen from turned axes', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 0.95, noNaN: true }),
      fc.double({ min: -1.3, max: 1.3, noNaN: true }),
      fc.double({ min: -0.05, max: 0.05, noNaN: true }),
      (share, heel, trim) => {
        const turned = liquidCentre({ shape, volumeM3: share * CAPACITY }, heel, trim)!;
        const slope = { heelSlope: Math.tan(heel), trimSlope: Math.tan(trim) / Math.cos(heel) };
        const { xM, yM, zM } = liquidAtRest(shape, share * CAPACITY, slope);
        expect(turned.xM).toBeCloseTo(xM, 8);
        expect(turned.yM).toBeCloseTo(yM, 8);
        expect(turned.zM).toBeCloseTo(zM, 8);
      },
    ),
    { numRuns: 60 },
  );
});

test('on her beam ends the liquid lies on the low side', () => {
  const lies = liquidCentre({ shape, volumeM3: CAPACITY / 4 }, Math.PI / 2, 0)!;
  expect(lies.yM).toBeCloseTo(0.8 - 0.25, 10);
  expect(lies.zM).toBeCloseTo(0.9, 10);
});

test('moments moved are those of the lever used for the test', () => {
  const liquid = { tank: 'fuel', shape, volumeM3: 3, densityTM3: 0.85 };
  const lever = liquidsLeverM([liquid], 60, 0);
  const heel = 0.3;
  const { yTM, zTM } = liquidsMoving([liquid])(heel, 0);
  expect((yTM * Math.cos(heel) + zTM * Math.sin(heel)) / 60).toBeCloseTo(lever(heel), 12);
});

test('full and empty tanks move nothing', () => {
  const of = (volumeM3: number) => ({ tank: 'fuel', shape, volumeM3, densityTM3: 0.85 });
  expect(liquidsMoving([of(CAPACITY), of(0)])(0.7, 0.02)).toEqual({ xTM: 0, yTM: 0, zTM: 0 });
});
