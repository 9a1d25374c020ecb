import { describe, expect, it } from 'vitest';
import { calibrationOf } from '#core/calibration/calibration.ts';
import { calibrationInput } from '#core/calibration/calibration-input.ts';
import { certificate } from '#core/sample/certificate.ts';

const ITEM = { instrument: 'fore', part: 'iis2iclx', board: 'b1', bus: 'i2c', address: '0x6a' };
const settings = (values: readonly number[]) =>
  [1, 2].flatMap((run) =>
    (['up', 'down'] as const).flatMap((way) =>
      (way === 'up' ? values : values.toReversed()).map((value) => ({ value, way, run })),
    ),
  );
const COMMON = {
  number: 'C-9',
  item: ITEM,
  madeBy: 'B. Teal',
  place: 'workshop',
  date: '2026-05-01',
  temperatureC: 20,
};

describe('a written calibration', () => {
  it('of an inclinometer becomes a certificate that makes its indication true', () => {
    const input = calibrationInput.parse({
      kind: 'inclinometer',
      ...COMMON,
      standard: {
        ...{ kind: 'sine-bar', number: 'B1', lengthMm: 500 },
        ...{ lengthUncertaintyMm: 0.1, heightUncertaintyMm: 0.01 },
      },
      points: settings([-30, -15, -5, 0, 5, 15, 30]).map(({ value, way, run }) => ({
        heightMm: value,
        indicatedDeg: (Math.asin((value / 500 - 0.004) / 0.98) * 180) / Math.PI,
        way,
        run,
      })),
      temperatureRun: [10, 12, 14, 16, 18, 20].map((temperatureC) => ({
        temperatureC,
        indicated: 0.001 * temperatureC,
      })),
      asFound: { zero: 0, scale: 1 },
    });
    const made = calibrationOf(input);
    const held = certificate.parse(made.certificate);
    expect(held.scale).toBeCloseTo(0.98, 10);
    expect(held.zero).toBeCloseTo(0.004, 10);
    expect(held.standard).toEqual({ number: 'B1', commonShare: 2e-4 });
    expect(held.temperature?.perK).toBeCloseTo(0.001, 12);
    expect(made.limits.find(({ figure }) => figure === 'leastRange')!.value).toBeCloseTo(6.88, 2);
  });

  it('of a water tube states its own time constant', () => {
    const input = calibrationInput.parse({
      kind: 'water-tube',
      ...COMMON,
      standard: {
        ...{ kind: 'gauge-blocks', number: 'G1' },
        ...{ settingUncertaintyMm: 0.02, commonUncertaintyShare: 5e-5 },
      },
      points: settings([-200, -100, 0, 100, 200]).map(({ value, way, run }) => ({
        differenceMm: value,
        indicatedMm: value / 1.01,
        way,
        run,
      })),
      step: Array.from({ length: 80 }, (_, k) => ({
        timeS: k * 0.5,
        indicatedMm: 50 * (1 - Math.exp((-k * 0.5) / 6)) + 0.01 * Math.sin(7 * k),
      })),
    });
    const { certificate: made } = calibrationOf(input);
    expect(made.scale).toBeCloseTo(1.01, 10);
    expect(made.timeConstantS!.value).toBeCloseTo(6, 1);
  });
});
