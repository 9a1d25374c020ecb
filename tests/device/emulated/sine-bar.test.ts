import { describe, expect, it } from 'vitest';
import { gFromCounts } from '#core/part/iis2iclx.ts';
import { certificate } from '#core/sample/certificate.ts';
import { correctedIndication } from '#core/sample/indicated-heel.ts';
import { createInclinometerElement } from '#device/emulated/elements/inclinometer.ts';
import {
  inclinometerCertificate,
  RESIDUAL_SCALE,
  sineBarCertificates,
} from '#device/emulated/sine-bar.ts';

/** Scale left over after the certificate, from +-0.05 g (2.9 degrees) in the same workshop air. */
function scaleLeftOver(seed: number, corrected: boolean): number {
  const proof = inclinometerCertificate(seed, 'fore');
  const indicated = (yG: number) => {
    const world = {
      specificForceG: () => ({ xG: 0, yG, zG: 1 }),
      legLevelMm: () => 0,
      temperatureC: () => 20,
    };
    const element = createInclinometerElement({ world, instrument: 'fore', seed });
    element.configure({ odrHz: 104, bandwidthHz: 10.4, rangeG: 0.5 }, 0);
    let sum = 0;
    for (let k = 0; k < 200; k++) sum += element.read(1 + k * 0.02).yCounts;
    return correctedIndication(gFromCounts(sum / 200), corrected ? proof : null);
  };
  return (indicated(0.05) - indicated(-0.05)) / 0.1 - 1;
}

describe('the sine bar', () => {
  it('writes certificates of the agreed form for the whole outfit', () => {
    const all = sineBarCertificates(1);
    expect(all.map((one) => one.instrument)).toEqual(['fore', 'aft', 'tube']);
    for (const one of all) {
      expect(certificate.parse(one)).toEqual(one);
      expect(one.points).toHaveLength(44);
      expect(one.scaleUncertainty).toBeCloseTo(0.00155, 4);
    }
    expect(sineBarCertificates(1, ['aft']).map((one) => one.instrument)).toEqual(['fore', 'tube']);
    expect(sineBarCertificates(1)).toEqual(all);
  });

  it('fits within a thousandth of a degree and half a tenth of a millimetre', () => {
    const [fore, , tube] = sineBarCertificates(2);
    expect(fore!.leftOver).toBeLessThan(0.001 * (Math.PI / 180));
    expect(tube!.leftOver).toBeLessThan(0.05);
  });

  it('leaves the scale it states, where an uncalibrated part is up to 2 % out', () => {
    const seeds = Array.from({ length: 40 }, (_, seed) => seed);
    const spread = (values: number[]) =>
      Math.sqrt(values.reduce((sum, one) => sum + one * one, 0) / values.length);
    // 40 draws: the standard error of a standard deviation is 11 %.
    const left = spread(seeds.map((seed) => scaleLeftOver(seed, true)));
    expect(left / RESIDUAL_SCALE).toBeGreaterThan(0.65);
    expect(left / RESIDUAL_SCALE).toBeLessThan(1.4);
    const raw = seeds.map((seed) => scaleLeftOver(seed, false));
    expect(spread(raw)).toBeGreaterThan(0.008);
    expect(Math.max(...raw.map(Math.abs))).toBeLessThan(0.021);
  });
});
