import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  draughtAtM,
  heightOverWaterM,
  upwardNormal,
  waterlineAtDraught,
  waterlineFromDraughts,
} from '#core/hull/waterline.ts';

const angle = fc.double({ min: -1.4, max: 1.4, noNaN: true });
const metres = fc.double({ min: -20, max: 20, noNaN: true });

describe('the water seen from the ship', () => {
  it('lies higher on the side she heels to and at the end she trims by', () => {
    const starboardDown = { heelRad: 0.1, trimRad: 0, levelM: 1 };
    expect(heightOverWaterM(starboardDown, { xM: 0, yM: 2, zM: 1 })).toBeLessThan(0);
    expect(heightOverWaterM(starboardDown, { xM: 0, yM: -2, zM: 1 })).toBeGreaterThan(0);
    const byTheStern = { heelRad: 0, trimRad: 0.1, levelM: 1 };
    expect(draughtAtM(byTheStern, 0)).toBeGreaterThan(draughtAtM(byTheStern, 10));
  });

  it('has an upward normal of unit length at any attitude', () => {
    fc.assert(
      fc.property(angle, angle, (heelRad, trimRad) => {
        const up = upwardNormal({ heelRad: 2 * heelRad, trimRad });
        expect(Math.hypot(up.xM, up.yM, up.zM)).toBeCloseTo(1, 14);
      }),
    );
  });

  it('passes through the draughts it was made from', () => {
    fc.assert(
      fc.property(angle, metres, metres, (heelRad, aftM, forwardM) => {
        const waterline = waterlineFromDraughts(
          { xM: 0.5, draughtM: aftM },
          { xM: 15, draughtM: forwardM },
          heelRad,
        );
        expect(draughtAtM(waterline, 0.5)).toBeCloseTo(aftM, 9);
        expect(draughtAtM(waterline, 15)).toBeCloseTo(forwardM, 9);
        expect(draughtAtM(waterlineAtDraught(aftM), 7)).toBe(aftM);
      }),
    );
  });

  it('refuses draughts at one place, heels without draughts and what is no number', () => {
    const one = { xM: 0, draughtM: 1 };
    expect(() => waterlineFromDraughts(one, one)).toThrow('input-contradiction');
    expect(() => waterlineFromDraughts(one, { xM: 5, draughtM: 1 }, Math.PI / 2 + 0.1)).toThrow(
      'input-range',
    );
    expect(() => waterlineAtDraught(Number.NaN)).toThrow('input-not-finite');
    const onHerSide = { heelRad: Math.PI / 2, trimRad: 0, levelM: 1 };
    expect(() => draughtAtM(onHerSide, 0)).toThrow('input-range');
  });
});
