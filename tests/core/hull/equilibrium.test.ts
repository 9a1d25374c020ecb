import { describe, expect, it } from 'vitest';
import { restingWaterline, waterlineAtHeel } from '#core/hull/equilibrium.ts';
import { immersed } from '#core/hull/hull.ts';
import { heightOverWaterM, upwardNormal, waterlineAtDraught } from '#core/hull/waterline.ts';
import { radiansFromDegrees } from '#core/quantity/angle.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { ellipseSection, prism } from './hulls.ts';

const box = prism(20, 5, [
  [0, 0],
  [3, 0],
  [3, 3],
]);
const ellipse = prism(20, 5, ellipseSection(3, 1.5, 73));

describe('where a vessel rests', () => {
  // Two whole tests worked out from the closed forms of KN (our own calculation).
  it.each([
    [0, 0, 0.416649172],
    [3, 0, 2.104469234],
    [6, 0, 3.769239231],
    [-3, 0, -1.275830277],
    [-6, 0, -2.954143277],
    [3, 1.2, 2.129442205],
    [6, 2.4, 3.85806778],
  ])('box with %f t m across and %f t m up: heel %f', (acrossTM, upTM, heelDeg) => {
    const centre = { xM: 10, yM: 0.004 + acrossTM / 184.5, zM: 2.2 + upTM / 184.5 };
    const { heelRad, trimRad } = restingWaterline(box, { massT: 184.5, centre }, 1.025);
    expect(Math.abs(heelRad - radiansFromDegrees(heelDeg))).toBeLessThan(2e-10);
    expect(Math.abs(trimRad)).toBeLessThan(1e-12);
  });

  it.each([
    [0, 0.240007019],
    [8, 1.899717835],
    [16, 3.575477677],
    [-8, -1.417690969],
    [-16, -3.08732642],
  ])('ellipse with %f t m across: heel %f', (acrossTM, heelDeg) => {
    const massT = 144.905961147;
    const centre = { xM: 10, yM: 0.008 + acrossTM / massT, zM: 1.5 };
    const { heelRad } = restingWaterline(ellipse, { massT, centre }, 1.025);
    // The ellipse is given by points: a few millionths of a degree.
    expect(Math.abs(heelRad - radiansFromDegrees(heelDeg))).toBeLessThan(4e-7);
  });

  it('has buoyancy under gravity and the weight carried, at any place of the centre', () => {
    const hull = marramHull();
    for (const centre of [
      { xM: 6.4, yM: 0.2, zM: 2.2 },
      { xM: 5.9, yM: -0.1, zM: 1.8 },
      { xM: 7, yM: 0, zM: 2.4 },
    ]) {
      const waterline = restingWaterline(hull, { massT: 47, centre }, 1.025);
      const { volumeM3, centre: buoyancy } = immersed(hull, waterline);
      expect(volumeM3 * 1.025).toBeCloseTo(47, 8);
      const up = upwardNormal(waterline);
      const arm = [centre.xM - buoyancy.xM, centre.yM - buoyancy.yM, centre.zM - buoyancy.zM];
      const high = arm[0]! * up.xM + arm[1]! * up.yM + arm[2]! * up.zM;
      expect(arm[0]).toBeCloseTo(high * up.xM, 8);
      expect(arm[1]).toBeCloseTo(high * up.yM, 8);
    }
  });

  it('lolls where she does not rest upright: tan2 = 2 (KG - KM) / BM, wall-sided', () => {
    const centre = { xM: 10, yM: 0, zM: 2.8 };
    const { heelRad } = restingWaterline(box, { massT: 184.5, centre }, 1.025);
    expect(Math.tan(heelRad) ** 2).toBeCloseTo((2 * (2.8 - 2.75)) / 2, 9);
    expect(heelRad).toBeGreaterThan(0);
  });

  it('refuses a weight it cannot carry', () => {
    const centre = { xM: 10, yM: 0, zM: 1 };
    expect(() => restingWaterline(box, { massT: 370, centre }, 1.025)).toThrow('hull-sinks');
    expect(() => restingWaterline(box, { massT: -1, centre }, 1.025)).toThrow('input-range');
  });

  it('at a given heel keeps the volume, with held and with free trim', () => {
    const hull = marramHull();
    for (const heelRad of [0, 0.3, -0.8, 1.57, 2.9]) {
      const held = waterlineAtHeel(hull, 45, heelRad, { fixedTrimRad: 0.01 });
      expect(held.trimRad).toBe(0.01);
      expect(immersed(hull, held).volumeM3).toBeCloseTo(45, 9);
      const free = waterlineAtHeel(hull, 45, heelRad, { freeAbout: { xM: 6.4, zM: 2 } });
      expect(free.heelRad).toBe(heelRad);
      expect(immersed(hull, free).volumeM3).toBeCloseTo(45, 9);
      const { centre } = immersed(hull, free);
      const [sh, ch] = [Math.sin(heelRad), Math.cos(heelRad)];
      const [st, ct] = [Math.sin(free.trimRad), Math.cos(free.trimRad)];
      const forward = (centre.xM - 6.4) * ct + centre.yM * sh * st - (centre.zM - 2) * ch * st;
      expect(Math.abs(forward)).toBeLessThan(1e-8);
    }
  });

  it('leaves a half-immersed box half immersed on her side', () => {
    const side = waterlineAtHeel(box, 180, Math.PI / 2, { fixedTrimRad: 0 });
    expect(heightOverWaterM(side, { xM: 10, yM: 0, zM: 1.5 })).toBeCloseTo(0, 9);
    expect(immersed(box, waterlineAtDraught(1.5)).volumeM3).toBeCloseTo(180, 9);
  });
});

describe('where an edge of the hull passes a station as she trims', () => {
  it('she rests between the two trims all the same', () => {
    const hull = marramHull();
    const heelRad = -1.0035643198967394;
    let near = waterlineAtHeel(hull, 46.74, heelRad, { freeAbout: { xM: 6.25, zM: 2.23 } });
    // 30 micrometres a step: some lie within what the integral jumps by
    for (let k = 1; k <= 800; k++) {
      const freeAbout = { xM: 6.25 + 3e-5 * k, zM: 2.23 };
      const next = waterlineAtHeel(hull, 46.74, heelRad, { freeAbout }, near);
      expect(Math.abs(next.trimRad - near.trimRad)).toBeLessThan(1e-5);
      near = next;
    }
  });
});
