import { describe, expect, it } from 'vitest';
import { adxl355, filterCode } from '#device/drivers/adxl355.ts';
import { type Exchange, faultOf, scriptedChip } from '../support/scripted-bus.ts';

const PERIOD_US = 20_000;

/** Data sheet Rev. 0: identity, reset 0x52, ODR 62.5 Hz with its low-pass at 15.6 Hz, +-2 g, measure. */
const SET_UP: readonly Exchange[] = [
  { read: [0x00, 3], answer: [0xad, 0x1d, 0xed] },
  { write: [0x2f, 0x52] },
  { waitS: 0.01 },
  { write: [0x28, 0x06] },
  { write: [0x2c, 0x01] },
  { write: [0x2d, 0x00] },
];
const PROVEN: readonly Exchange[] = [
  { read: [0x28, 1], answer: [0x06] },
  { read: [0x2c, 1], answer: [0x01] },
  { read: [0x2d, 1], answer: [0x00] },
];

describe('ADXL355', () => {
  it('is set up by exactly these writes, and read back', async () => {
    const { chip, done } = scriptedChip(0x1d, [...SET_UP, ...PROVEN]);
    await adxl355.configure(chip, PERIOD_US);
    done();
  });

  it('is refused when another chip answers, before anything is written', async () => {
    // 0xE5 is what an ADXL345 says at the same address.
    const { chip, done } = scriptedChip(0x53, [{ read: [0x00, 3], answer: [0xe5, 0, 0] }]);
    expect(await faultOf(adxl355.configure(chip, PERIOD_US))).toBe('chip-wrong-identity');
    done();
  });

  it('is found out when it fell back into standby', async () => {
    const script = [SET_UP[0]!, ...PROVEN.slice(0, 2)];
    const { chip } = scriptedChip(0x1d, [...script, { read: [0x2d, 1], answer: [0x01] }]);
    expect(await faultOf(adxl355.check(chip, PERIOD_US))).toBe('chip-not-configured');
  });

  it.each([
    // Corner at ODR/4 (Table 44), at most half the scan rate.
    [5000, 4, 62.5],
    [10_000, 5, 31.25],
    [20_000, 6, 15.625],
    [50_000, 7, 7.8125],
  ])('filters a scan every %i us at code %i, and never by its high-pass', (periodUs, code, hz) => {
    expect(filterCode(periodUs)).toBe(code);
    expect(hz).toBeLessThanOrEqual(1e6 / periodUs / 2);
    expect(() => filterCode(10_000_000)).toThrow(RangeError);
  });

  it.each([
    // Sines of these heels at 256 000 counts a g, 20 bits in the upper part of three bytes.
    [0.01, 45, [0x00, 0x02, 0xd0]],
    [1, 4468, [0x01, 0x17, 0x40]],
    [2, 8934, [0x02, 0x2e, 0x60]],
    [-1.5, -6701, [0xfe, 0x5d, 0x30]],
    [4, 17_858, [0x04, 0x5c, 0x20]],
    [90, 256_000, [0x3e, 0x80, 0x00]],
  ])('takes %f degrees out as %i counts', (heelDeg, wanted, bytes) => {
    expect(Math.round(256_000 * Math.sin((heelDeg * Math.PI) / 180))).toBe(wanted);
    // Temperature 20 C by the later intercept: 07 8A.
    const whole = Uint8Array.of(0x07, 0x8a, 0, 0, 0, ...bytes, 0x3e, 0x76, 0x40);
    expect(adxl355.counts([{ kind: 'bytes', bytes: whole }], 0)).toEqual(
      [0, wanted, 255_844, 0x78a].map((count) => ({ count, fault: null })),
    );
  });

  it('says why it bears no company', () => {
    expect(adxl355.aloneBecause).toMatch(/pulls the line low/);
  });
});
