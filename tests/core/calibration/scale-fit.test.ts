import { Matrix, SVD } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { fitScale, type ScalePoint } from '#core/calibration/scale-fit.ts';
import { createRandom } from '#core/numerics/random.ts';

const STANDARD = { setting: 0, commonShare: 0 };
const SETTINGS = [-4, -3, -2, -1, -0.5, 0, 0.5, 1, 2, 3, 4].map((deg) =>
  Math.sin((deg * Math.PI) / 180),
);

/** Up and down, twice, as shown by an instrument. */
function upDownTwice(shown: (reference: number, way: 'up' | 'down', run: number) => number) {
  return [1, 2].flatMap((run) =>
    (['up', 'down'] as const).flatMap((way) =>
      (way === 'up' ? SETTINGS : [...SETTINGS].reverse()).map((reference) => ({
        indicated: shown(reference, way, run),
        reference,
        way,
        run,
      })),
    ),
  );
}

describe('a fitted calibration', () => {
  it('finds the scale and zero of an instrument without noise', () => {
    const fit = fitScale(
      upDownTwice((sine) => (sine - 0.002) / 1.013),
      STANDARD,
    );
    expect(fit.scale.value).toBeCloseTo(1.013, 12);
    expect(fit.zero.value).toBeCloseTo(0.002, 12);
    expect(fit.largestResidual).toBeLessThan(1e-14);
    expect(fit.hysteresis).toBeLessThan(1e-14);
    expect(fit.zeroReturn).toBe(0);
  });

  it('reproduces the calibration of a thermometer (JCGM 100:2008, table H.6)', () => {
    // Reading and correction of eleven points; the line is of the correction on (t - 20 C).
    const readings = [
      21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511,
    ];
    const corrections = [
      -0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16,
    ];
    const points = readings.map(
      (reading, k): ScalePoint => ({
        indicated: reading - 20,
        reference: corrections[k]!,
        way: 'up',
        run: 1,
      }),
    );
    const fit = fitScale(points, STANDARD);
    // H.3.3: y1 = -0.1712(29), y2 = 0.00218(67), s = 0.0035.
    expect(fit.zero.value).toBeCloseTo(-0.1712, 4);
    expect(fit.zero.standardUncertainty).toBeCloseTo(0.0029, 4);
    expect(fit.scale.value).toBeCloseTo(0.00218, 5);
    expect(fit.scale.standardUncertainty).toBeCloseTo(0.00067, 5);
    expect(fit.leftOver).toBeCloseTo(0.0035, 4);
    expect(fit.hysteresis).toBeNull();
  });

  it('agrees with a general library (pseudo-inverse of ml-matrix) on a noisy run', () => {
    const chance = createRandom(7, 'scale fit');
    const points = upDownTwice((sine) => sine / 1.02 + 0.001 + chance.normal(5e-5));
    const fit = fitScale(points, STANDARD);
    const design = new Matrix(points.map(({ indicated }) => [1, indicated]));
    const solved = new SVD(design, { autoTranspose: true })
      .solve(Matrix.columnVector(points.map(({ reference }) => reference)))
      .to1DArray();
    expect(fit.zero.value).toBeCloseTo(solved[0]!, 12);
    expect(fit.scale.value).toBeCloseTo(solved[1]!, 11);
    expect(fit.bend.probability).toBeGreaterThan(0.001);
  });

  it('tells hysteresis, repeats, a zero that does not return and a bend', () => {
    const lag = fitScale(
      upDownTwice((sine, way) => sine + (way === 'up' ? 1e-4 : -1e-4)),
      STANDARD,
    );
    expect(lag.hysteresis).toBeCloseTo(2e-4, 8);
    expect(lag.repeatability).toBeCloseTo(0, 12);
    expect(lag.zeroReturn).toBeCloseTo(-2e-4, 8);
    const second = fitScale(
      upDownTwice((sine, _, run) => sine + (run === 2 ? 1e-4 : 0)),
      STANDARD,
    );
    expect(second.repeatability).toBeCloseTo(1e-4 / Math.SQRT2, 8);
    const bent = fitScale(
      upDownTwice((sine, _, run) => sine + 0.05 * sine * sine + run * 1e-7),
      STANDARD,
    );
    expect(bent.bend.probability).toBeLessThan(1e-6);
  });

  it('is no surer than its standard: the setting in the fit, the bar in common', () => {
    const fit = fitScale(
      upDownTwice((sine) => sine),
      { setting: 2e-5, commonShare: 4e-4 },
    );
    const sxx = 4 * SETTINGS.reduce((sum, sine) => sum + sine * sine, 0);
    expect(fit.scaleUncertainty.ofFit).toBeCloseTo(2e-5 / Math.sqrt(sxx), 10);
    expect(fit.scaleUncertainty.together).toBeCloseTo(Math.hypot(2e-5 / Math.sqrt(sxx), 4e-4), 10);
  });

  it('refuses too few points and settings, and an instrument that shows one value', () => {
    const points = upDownTwice((sine) => sine);
    expect(() => fitScale(points.slice(0, 5), STANDARD)).toThrow(/input-too-few/);
    const two = points.filter(({ reference }) => Math.abs(reference) === SETTINGS[10]);
    expect(() => fitScale([...two, ...two], STANDARD)).toThrow(/input-too-few/);
    expect(() =>
      fitScale(
        upDownTwice(() => 0.5),
        STANDARD,
      ),
    ).toThrow(/line-not-determined/);
  });
});
