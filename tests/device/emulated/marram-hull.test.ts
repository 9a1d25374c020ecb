import { describe, expect, it } from 'vitest';
import { restingWaterline } from '#core/hull/equilibrium.ts';
import { draughtsOf } from '#core/hull/hull.ts';
import { hydrostaticsAt } from '#core/hull/hydrostatics.ts';
import { metacentreMovementByKnM } from '#core/hull/metacentre-movement.ts';
import { heelLimits } from '#core/hull/righting-lever.ts';
import { marramAfloat, marramTest } from '#device/emulated/marram.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';

const hull = marramHull();
const { massT, xM, zM, densityTM3 } = marramAfloat();
const resting = restingWaterline(hull, { massT, centre: { xM, yM: 0, zM } }, densityTM3);

describe("Marram's hull", () => {
  it('is 16.4 m over her bulwark, and moulded with a shell', () => {
    expect(hull.toXM - hull.fromXM).toBeGreaterThan(16);
    expect(hull.toXM - hull.fromXM).toBeLessThan(16.4);
    expect(hull.offsetsAre).toBe('moulded');
    expect(hull.shellThicknessM).toBe(0.006);
    expect(hull.bodies.map((body) => [body.name, body.sign])).toEqual([
      ['Marram', 1],
      ['bar keel', 1],
      ['bow thruster tunnel', -1],
      ['wheelhouse', 1],
    ]);
  });

  it('floats as her test states: KM, movement of the metacentre, a trim by the stern', () => {
    const { particulars } = marramTest();
    const { kmTransverseM } = hydrostaticsAt(hull, resting, densityTM3);
    expect(Math.abs(kmTransverseM - particulars.kmM!)).toBeLessThan(0.0006);
    const movementM = metacentreMovementByKnM(hull, resting, 'free', zM);
    expect(Math.abs(movementM - particulars.metacentreMovementM!)).toBeLessThan(0.006);
    const { aftM, forwardM } = draughtsOf(hull, resting);
    expect(aftM - forwardM).toBeGreaterThan(0.05);
    expect(aftM - forwardM).toBeLessThan(0.2);
  });

  it('keeps her deck edge dry at the heels of a test, and her openings for long', () => {
    const limits = heelLimits(hull, {
      volumeM3: massT / densityTM3,
      trimming: { freeAbout: { xM, zM } },
      kgM: zM,
      tcgM: 0,
      side: 'starboard',
    });
    const degree = Math.PI / 180;
    expect(limits.deckEdgeRad).toBeGreaterThan(10 * degree);
    expect(limits.vanishingRad).toBeGreaterThan(35 * degree);
    const vent = limits.openings.find((one) => one.closing === 'unprotected');
    expect(vent?.immersedRad).toBeGreaterThan(30 * degree);
  });
});
