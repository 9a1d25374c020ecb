import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deckEdgeAt, draughtsOf, immersed, waterplane, wholeVolume } from '#core/hull/hull.ts';
import { type Waterline, waterlineAtDraught } from '#core/hull/waterline.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { ellipseSection, evenly, hullOf, prism, type Section, wigley } from './hulls.ts';

/** Closed forms, worked out from the formulas of each body (our own calculation). */
describe('hulls in closed form, upright', () => {
  it('box 20 x 6 at 1.5 m', () => {
    const box = prism(20, 5, [
      [0, 0],
      [3, 0],
      [3, 3],
    ]);
    const { volumeM3, centre } = immersed(box, waterlineAtDraught(1.5));
    expect(volumeM3).toBeCloseTo(180, 10);
    expect(centre.zM).toBeCloseTo(0.75, 12);
    const plane = waterplane(box, waterlineAtDraught(1.5));
    expect(plane.areaM2).toBeCloseTo(120, 10);
    expect(plane.transverseM4 / volumeM3).toBeCloseTo(2, 12);
    expect(plane.longitudinalM4).toBeCloseTo((6 * 20 ** 3) / 12, 8);
  });

  it('parabolic section 18 x 5 at 1.25 m', () => {
    const half = 2.5 * Math.sqrt(1.6);
    const section = evenly(0, half, 25).map((y): [number, number] => [y, (1.25 * y * y) / 6.25]);
    const hull = prism(18, 7, section);
    const { volumeM3, centre } = immersed(hull, waterlineAtDraught(1.25));
    expect(volumeM3).toBeCloseTo(75, 3);
    expect(centre.zM).toBeCloseTo(0.75, 5);
    const { transverseM4 } = waterplane(hull, waterlineAtDraught(1.25));
    expect(transverseM4 / volumeM3).toBeCloseTo(2.5, 4);
  });

  it('half-immersed circle and ellipse', () => {
    const circle = prism(16, 7, ellipseSection(2.5, 2.5, 37));
    const round = immersed(circle, waterlineAtDraught(2.5));
    expect(round.volumeM3).toBeCloseTo(157.079633, 3);
    expect(round.centre.zM).toBeCloseTo(1.438967046, 6);
    const ellipse = prism(20, 7, ellipseSection(3, 1.5, 37));
    const oval = immersed(ellipse, waterlineAtDraught(1.5));
    expect(oval.volumeM3).toBeCloseTo(141.371669412, 2);
    expect(oval.centre.zM).toBeCloseTo(0.863380228, 5);
    const { transverseM4 } = waterplane(ellipse, waterlineAtDraught(1.5));
    expect(transverseM4 / oval.volumeM3).toBeCloseTo(2.546479089, 4);
  });

  it.each([
    [21, 11, 1e-4],
    [11, 6, 1e-3],
    [41, 21, 1e-5],
  ])('Wigley hull of %i stations and %i waterlines within %f', (stations, waterlines, share) => {
    const hull = wigley(16, 3.2, 1.5, stations, waterlines);
    const { volumeM3, centre } = immersed(hull, waterlineAtDraught(1.5));
    expect(Math.abs(volumeM3 / ((4 / 9) * 16 * 3.2 * 1.5) - 1)).toBeLessThan(share);
    expect(Math.abs(centre.zM / 1.5 - 5 / 8)).toBeLessThan(share);
    const { areaM2 } = waterplane(hull, waterlineAtDraught(1.499999));
    expect(Math.abs(areaM2 / ((2 / 3) * 16 * 3.2) - 1)).toBeLessThan(share);
  });

  it('barge with a rake at both ends and few stations, exactly', () => {
    const at = (z: number): Section => [
      [0, z],
      [3, z],
      [3, 3],
    ];
    const hull = hullOf([
      [0, at(1.5)],
      [3, at(0)],
      [10, at(0)],
      [17, at(0)],
      [20, at(1.5)],
    ]);
    const { volumeM3 } = immersed(hull, waterlineAtDraught(1));
    // Rakes are triangles 1 m deep, 2 m long.
    expect(volumeM3).toBeCloseTo(6 * (14 + 2), 10);
  });
});

const attitude = fc.record({
  heelRad: fc.double({ min: -3.1, max: 3.1, noNaN: true }),
  trimRad: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
  levelM: fc.double({ min: -1.5, max: 2.2, noNaN: true }),
});
const marram = marramHull();

describe('laws', () => {
  it('dV/dT is the waterplane, and its centroid is where the volume comes on', () => {
    fc.assert(
      fc.property(attitude, (waterline) => {
        const step = 1e-4;
        const at = (by: number) =>
          immersed(marram, { ...waterline, levelM: waterline.levelM + by });
        const [more, less] = [at(step), at(-step)];
        const plane = waterplane(marram, waterline);
        if (!(less.volumeM3 > 0.5) || !(plane.areaM2 > 0.5)) return;
        const grown = more.volumeM3 - less.volumeM3;
        expect(Math.abs(grown / (2 * step) / plane.areaM2 - 1)).toBeLessThan(3e-3);
        const comes = (more.volumeM3 * more.centre.xM - less.volumeM3 * less.centre.xM) / grown;
        expect(Math.abs(comes - plane.centroid.xM)).toBeLessThan(0.03);
      }),
      { numRuns: 60 },
    );
  });

  it('port is starboard in a mirror', () => {
    fc.assert(
      fc.property(attitude, (waterline) => {
        const one = immersed(marram, waterline);
        const other = immersed(marram, { ...waterline, heelRad: -waterline.heelRad });
        expect(other.volumeM3).toBeCloseTo(one.volumeM3, 9);
        if (!(one.volumeM3 > 0.1)) return;
        expect(other.centre.yM).toBeCloseTo(-one.centre.yM, 9);
        expect(other.centre.zM).toBeCloseTo(one.centre.zM, 9);
      }),
      { numRuns: 40 },
    );
  });

  it('what is dry in one attitude is wet upside down: the whole volume is the sum', () => {
    const whole = wholeVolume(marram).volumeM3;
    fc.assert(
      fc.property(attitude, ({ heelRad, trimRad, levelM }) => {
        const over: Waterline = { heelRad: heelRad + Math.PI, trimRad: -trimRad, levelM: -levelM };
        const sum =
          immersed(marram, { heelRad, trimRad, levelM }).volumeM3 + immersed(marram, over).volumeM3;
        expect(Math.abs(sum - whole)).toBeLessThan(2e-4);
      }),
      { numRuns: 40 },
    );
  });

  it('a hull twice as large has eight times the volume, sixteen times the second moments', () => {
    const small = wigley(8, 1.6, 0.75, 11, 7);
    const sections = (scale: number) =>
      evenly(0, 8 * scale, 11).map((x) => {
        const along = x / (4 * scale) - 1;
        const half = 0.8 * scale * (1 - along * along);
        const wet = evenly(0, 0.75 * scale, 7).map((z): [number, number] => [
          half * (1 - (1 - z / (0.75 * scale)) ** 2),
          z,
        ]);
        return [x, [...wet, [half, 0.75 * scale + scale]]] as const;
      });
    const large = hullOf(sections(2));
    const [a, b] = [
      { heelRad: 0.2, trimRad: 0.02, levelM: 0.6 },
      { heelRad: 0.2, trimRad: 0.02, levelM: 1.2 },
    ];
    expect(immersed(hullOf(sections(1)), a).volumeM3).toBeCloseTo(immersed(small, a).volumeM3, 9);
    expect(immersed(large, b).volumeM3 / immersed(hullOf(sections(1)), a).volumeM3).toBeCloseTo(
      8,
      9,
    );
    const [p, q] = [waterplane(hullOf(sections(1)), a), waterplane(large, b)];
    expect(q.transverseM4 / p.transverseM4).toBeCloseTo(16, 8);
    expect(q.longitudinalM4 / p.longitudinalM4).toBeCloseTo(16, 8);
  });
});

describe('what is read off a hull', () => {
  it('has a deck edge within its length, and draughts at its perpendiculars', () => {
    expect(deckEdgeAt(marram, 7)!.yM).toBeCloseTo(2.53, 2);
    expect(deckEdgeAt(marram, 40)).toBeNull();
    const box = prism(20, 5, [
      [0, 0],
      [3, 0],
      [3, 3],
    ]);
    const draughts = draughtsOf(box, {
      heelRad: 0,
      trimRad: Math.atan(0.01),
      levelM: 1.6 * Math.cos(Math.atan(0.01)),
    });
    expect(draughts.aftM).toBeCloseTo(1.6, 12);
    expect(draughts.forwardM).toBeCloseTo(1.4, 12);
    expect(draughts.meanM).toBeCloseTo(1.5, 12);
  });
});
