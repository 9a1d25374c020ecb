import { describe, expect, it } from 'vitest';
import { testOpened } from '#core/record/line.ts';
import { mounting } from '#core/sample/certificate.ts';
import {
  marramMountings,
  marramReality,
  marramTest,
  marramTruth,
} from '#device/emulated/marram.ts';
import { restingHeelRad } from '#device/emulated/vessel.ts';

describe('Marram', () => {
  it('opens a test of the agreed form', () => {
    expect(testOpened.parse(marramTest())).toEqual(marramTest());
    for (const one of marramMountings()) expect(mounting.parse(one)).toEqual(one);
  });

  it('plans eight shifts: up to starboard, back, up to port, back', () => {
    const test = marramTest();
    const y = new Map(test.weights.map((one) => [one.weight, one.at.yM]));
    const moments = test.plan.map(({ moves }) => {
      for (const move of moves) y.set(move.weight, move.to.yM);
      return test.weights.reduce(
        (sum, one) => sum + one.massT * (y.get(one.weight)! - one.at.yM),
        0,
      );
    });
    const expected = [1.0542, 2.1, 1.0542, 0, -1.05, -2.1084, -1.05, 0];
    moments.forEach((moment, k) => {
      expect(moment).toBeCloseTo(expected[k]!, 10);
    });
    expect(test.plan.every(({ moves }) => moves.length === 1)).toBe(true);
  });

  it('heels about 1.35 and 2.7 degrees', () => {
    const { form } = marramReality(1);
    const heelDeg = (transverseTM: number) =>
      (restingHeelRad(form, { transverseTM, verticalTM: 0 }) * 180) / Math.PI;
    expect(Math.abs(heelDeg(1.0542) - heelDeg(0) - 1.37)).toBeLessThan(0.06);
    expect(Math.abs(heelDeg(-2.1084) - heelDeg(0) + 2.75)).toBeLessThan(0.1);
  });

  it('is really within what is stated: errors of the stated size and no bias', () => {
    const test = marramTest();
    const days = Array.from({ length: 500 }, (_, seed) => marramReality(seed));
    const spread = (values: number[], stated: number, uncertainty: number) => {
      const scaled = values.map((one) => (one - stated) / uncertainty);
      const mean = scaled.reduce((sum, one) => sum + one, 0) / scaled.length;
      const square = scaled.reduce((sum, one) => sum + one * one, 0) / scaled.length;
      // Standard errors with 500 draws: 0.045 and 0.063.
      expect(Math.abs(mean)).toBeLessThan(0.18);
      expect(Math.abs(square - 1)).toBeLessThan(0.25);
    };
    const { particulars } = test;
    spread(
      days.map((one) => one.form.displacementT),
      particulars.displacementT,
      particulars.displacementUncertaintyT,
    );
    spread(
      days.map((one) => one.form.kmM),
      particulars.kmM!,
      particulars.kmUncertaintyM!,
    );
    for (const one of test.weights) {
      spread(
        days.map((day) => day.massT[one.weight]!),
        one.massT,
        one.massUncertaintyT,
      );
    }
    spread(
      days.map((day) => day.realYM(2.1) - day.realYM(-2.1)),
      4.2,
      test.distanceUncertaintyM,
    );
  });

  it('declares the fluid GM, upright, as the truth', () => {
    const reality = marramReality(4);
    expect(marramTruth(reality)).toEqual({
      gmFluidM: reality.form.kmM - reality.form.kgM,
      displacementT: reality.form.displacementT,
    });
    expect(Math.abs(marramTruth(reality).gmFluidM - 0.942)).toBeLessThan(0.04);
    expect(marramReality(4).form).toEqual(reality.form);
    expect(marramReality(5).form).not.toEqual(reality.form);
  });
});
