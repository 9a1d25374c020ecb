import { describe, expect, it } from 'vitest';
import {
  type CalibrationDraft,
  calibrationDraft,
  reckonDraft,
  settingsOf,
  typedNumber,
} from '#core/calibration/calibration-draft.ts';

const FOUND = { part: 'iis2iclx', board: 'b1', asFound: { zero: 0.001, scale: 1.01 } };
const texts = {
  ...{ number: 'C-1', date: '2026-11-25', madeBy: 'R. Quill', place: 'Kettle Sound' },
  ...{ bus: 'I2C', address: '0x6a', standard: 'B-1', seal: '117' },
  ...{ lengthMm: '1000', lengthUncertaintyMm: '0.05', heightUncertaintyMm: '0,01' },
};
const draft: CalibrationDraft = {
  v: 1,
  instrument: 'fore',
  kind: 'inclinometer',
  texts,
  points: settingsOf('inclinometer', 1000).map(({ set, way, run }) => ({
    ...{ set, way, run },
    shown: (Math.asin((set / 1000 - 0.002) / 1.015) * 180) / Math.PI,
  })),
  reversal: [],
  sixPositions: [],
  temperatureRun: [],
  step: [],
  noise: 0.001,
  temperatureC: 20,
};

describe('a draft', () => {
  it('is set up and down, twice, at the heights of the sine bar', () => {
    const settings = settingsOf('inclinometer', 500);
    expect(settings).toHaveLength(44);
    // 4 degrees on 500 mm are 34.88 mm, 1 degree 8.73 mm.
    expect(settings[0]).toEqual({ set: -34.88, way: 'up', run: 1 });
    expect(settings.find(({ set }) => set === 8.73)).toBeDefined();
    expect(settings.at(-1)).toEqual({ set: -34.88, way: 'down', run: 2 });
    expect(settingsOf('water-tube', 0).map(({ set }) => set)).toContain(320);
  });

  it('gives the scale and zero that were built into it, and states what was found before', () => {
    const { calibration } = reckonDraft(draft, FOUND);
    expect(calibration!.certificate.scale).toBeCloseTo(1.015, 9);
    expect(calibration!.certificate.zero).toBeCloseTo(0.002, 9);
    expect(calibration!.certificate).toMatchObject({
      item: { instrument: 'fore', board: 'b1', bus: 'I2C', address: '0x6a', seal: '117' },
      asFound: { zero: 0.001, scale: 1.01 },
      standard: { number: 'B-1', commonShare: 0.05 / 1000 },
      noise: 0.001,
    });
    expect(calibration!.limits.every(({ verdict }) => verdict === 'within')).toBe(true);
  });

  it.each([
    ['no number of the certificate', { texts: { ...texts, number: '' } }],
    ['a length that is no number', { texts: { ...texts, lengthMm: '1 m' } }],
    ['five points', { points: draft.points.slice(0, 5) }],
    ['half an alignment', { texts: { ...texts, portMm: '400' } }],
    ['one reversal', { reversal: [{ firstDeg: 0.1, turnedDeg: 0 }] }],
  ])('is no certificate with %s, and says why', (_, change) => {
    const reckoned = reckonDraft({ ...draft, ...change }, FOUND);
    expect(reckoned.calibration).toBeNull();
    expect(reckoned.whyNot!.length).toBeGreaterThan(5);
  });

  it('of a water tube is fitted in millimetres', () => {
    const tube: CalibrationDraft = {
      ...draft,
      kind: 'water-tube',
      texts: { ...texts, settingUncertaintyMm: '0.02', commonUncertaintyShare: '0.0001' },
      points: settingsOf('water-tube', 0).map(({ set, way, run }) => ({
        ...{ set, way, run },
        shown: (set - 3) / 0.99,
      })),
      step: Array.from({ length: 100 }, (_, k) => ({
        timeS: k / 2,
        indicatedMm: 50 * (1 - Math.exp(-k / 2 / 6)),
      })),
    };
    const { calibration } = reckonDraft(tube, { ...FOUND, part: 'abp2', asFound: null });
    expect(calibration!.certificate.scale).toBeCloseTo(0.99, 9);
    expect(calibration!.certificate.zero).toBeCloseTo(3, 6);
    expect(calibration!.timeConstant!.timeConstantS.value).toBeCloseTo(6, 3);
  });

  it('of an instrument that does not answer says itself what and where it is', () => {
    const silent = { part: null, board: null, asFound: null };
    expect(reckonDraft(draft, silent).calibration).toBeNull();
    const told = { ...draft, texts: { ...texts, part: 'iis2iclx', board: 'b7' } };
    expect(reckonDraft(told, silent).calibration!.certificate.item).toMatchObject({
      part: 'iis2iclx',
      board: 'b7',
    });
  });

  it('is checked when it comes back from where it lay', () => {
    expect(calibrationDraft.safeParse(JSON.parse(JSON.stringify(draft))).success).toBe(true);
    expect(calibrationDraft.safeParse({ ...draft, v: 2 }).success).toBe(false);
    expect(calibrationDraft.safeParse({ ...draft, noise: -1 }).success).toBe(false);
  });

  it.each([
    ['', null],
    [' 1,5 ', 1.5],
    ['\u22120.25', -0.25],
    ['.5', 0.5],
    ['1e3', Number.NaN],
    ['one', Number.NaN],
    ['1.2.3', Number.NaN],
  ])('reads the typed %j as %s', (typed, value) => {
    expect(typedNumber(typed)).toEqual(value);
  });
});
