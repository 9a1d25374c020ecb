import { describe, expect, it } from 'vitest';
import { restingWaterline } from '#core/hull/equilibrium.ts';
import { knAt } from '#core/hull/righting-lever.ts';
import { degreesFromRadians } from '#core/quantity/angle.ts';
import { marramAfloat, marramRighting } from '#device/emulated/marram.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { leversOf } from '#device/emulated/righting-table.ts';
import { restingHeelRad } from '#device/emulated/vessel.ts';

const hull = marramHull();

describe('the table of exact levers', () => {
  it('lets her rest where her hull does under the same weights, heel and trim', () => {
    const afloat = marramAfloat();
    for (const displacementT of [46.7, 46.82, 46.9]) {
      const righting = marramRighting(displacementT);
      const form = { displacementT, kmM: righting.kmM, righting, kgM: afloat.zM, tcgM: 0.001 };
      for (const transverseTM of [-2.1, -1, 0.5, 1.05, 2.1, 6]) {
        const heelRad = restingHeelRad(form, { transverseTM, verticalTM: 0 });
        const yM = form.tcgM + transverseTM / displacementT;
        const exact = restingWaterline(
          hull,
          { massT: displacementT, centre: { xM: afloat.xM, yM, zM: afloat.zM } },
          afloat.densityTM3,
        );
        // The table trims about a centre on the centre plane; hers lies up to 0.13 m off it.
        expect(Math.abs(degreesFromRadians(heelRad - exact.heelRad))).toBeLessThan(5e-5);
        expect(Math.abs(righting.trimRad(heelRad) - exact.trimRad)).toBeLessThan(1e-5);
      }
    }
  });

  it('is exact at its heels and within a micrometre between them, two tenths of a millimetre where the deck edge dips', () => {
    const afloat = marramAfloat();
    const exact = leversOf(hull, afloat);
    const table = marramRighting(afloat.massT);
    expect(Math.abs(table.kmM - exact.kmM)).toBeLessThan(1e-12);
    for (const heelRad of [0.00625, 0.03, 0.0469, 0.131, 0.15, 0.2094, 0.2438, 0.4, 0.606]) {
      const { knM } = knAt(hull, afloat.massT / afloat.densityTM3, heelRad, {
        freeAbout: { xM: afloat.xM, zM: afloat.zM },
      });
      const offM = Math.abs(table.excessM(heelRad) - (knM / Math.sin(heelRad) - exact.kmM));
      expect(offM).toBeLessThan(heelRad > 0.17 && heelRad < 0.3 ? 2e-4 : 1e-6);
    }
    exact.excessM.slice(0, 36).forEach((excessM, k) => {
      expect(Math.abs(table.excessM(k * 0.02) - excessM)).toBeLessThan(1e-12);
    });
  });

  it('is alike on both sides, level upright, and refuses heels it does not know', () => {
    const table = marramRighting(46.82);
    expect(table.excessM(0)).toBe(0);
    expect(table.excessM(-0.05)).toBe(table.excessM(0.05));
    expect(table.trimRad(-0.3)).toBe(table.trimRad(0.3));
    expect(() => table.excessM(0.8)).toThrow(RangeError);
    expect(() => table.trimRad(Number.NaN)).toThrow(RangeError);
  });
});
