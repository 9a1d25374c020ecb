import { describe, expect, it } from 'vitest';
import { iis2iclx } from '#device/drivers/iis2iclx.ts';
import { filterSetting } from '#device/drivers/st-accelerometer.ts';
import { type Exchange, faultOf, scriptedChip } from '../support/scripted-bus.ts';

const PERIOD_US = 20_000;

/** Data sheet DS13005 Rev 7: reset, BDU and IF_INC, DEVICE_CONF, LPF2 at ODR/10, 104 Hz +-0.5 g with LPF2. */
const SET_UP: readonly Exchange[] = [
  { read: [0x0f, 1], answer: [0x6b] },
  { write: [0x12, 0x01] },
  { waitS: 0.02 },
  { write: [0x12, 0x44] },
  { read: [0x18, 1], answer: [0xe0] },
  { write: [0x18, 0xe2] },
  { write: [0x17, 0x20] },
  { write: [0x10, 0x42] },
];
const PROVEN: readonly Exchange[] = [
  { read: [0x10, 1], answer: [0x42] },
  { read: [0x12, 1], answer: [0x44] },
  { read: [0x17, 1], answer: [0x20] },
];

describe('IIS2ICLX', () => {
  it('is set up by exactly these writes, and read back', async () => {
    const { chip, done } = scriptedChip(0x6a, [...SET_UP, ...PROVEN]);
    await iis2iclx.configure(chip, PERIOD_US);
    done();
  });

  it('is refused when another chip answers, before anything is written', async () => {
    // 0x6C is what an LSM6DSO says at the same address.
    const { chip, done } = scriptedChip(0x6a, [{ read: [0x0f, 1], answer: [0x6c] }]);
    expect(await faultOf(iis2iclx.configure(chip, PERIOD_US))).toBe('chip-wrong-identity');
    done();
  });

  it('is refused when it does not keep a setting', async () => {
    const { chip, done } = scriptedChip(0x6b, [...SET_UP, { read: [0x10, 1], answer: [0x00] }]);
    expect(await faultOf(iis2iclx.configure(chip, PERIOD_US))).toBe('chip-not-configured');
    done();
  });

  it('passes on what the bus says', async () => {
    const { chip, done } = scriptedChip(0x6a, [{ read: [0x0f, 1], answer: 'bus-no-answer' }]);
    expect(await faultOf(iis2iclx.configure(chip, PERIOD_US))).toBe('bus-no-answer');
    done();
  });

  it('is checked after a fault by identity and settings alone', async () => {
    const { chip, done } = scriptedChip(0x6a, [{ read: [0x0f, 1], answer: [0x6b] }, ...PROVEN]);
    await iis2iclx.check(chip, PERIOD_US);
    done();
  });

  it('is found out when it lost its settings', async () => {
    const { chip, done } = scriptedChip(0x6a, [
      { read: [0x0f, 1], answer: [0x6b] },
      { read: [0x10, 1], answer: [0x00] },
    ]);
    expect(await faultOf(iis2iclx.check(chip, PERIOD_US))).toBe('chip-not-configured');
    done();
  });

  it.each([
    // Corner of LPF2 (Table 53) at most half the scan rate, the widest that is.
    [10_000, 0x00, 26],
    [20_000, 0x20, 10.4],
    [50_000, 0x40, 5.2],
    [100_000, 0x60, 104 / 45],
  ])('filters a scan every %i us at register 0x%s', (periodUs, setting, cornerHz) => {
    expect(filterSetting(periodUs)).toBe(setting);
    expect(cornerHz).toBeLessThanOrEqual(1e6 / periodUs / 2);
    // No high-pass path, no slope filter: they would take the heel out.
    expect(setting & 0x1f).toBe(0);
  });

  it('has no filter for a scan slower than its narrowest', () => {
    expect(() => filterSetting(10_000_000)).toThrow(RangeError);
  });

  it('takes counts out as signed numbers, low byte first', () => {
    // x: 2 degrees 2327 = 17 09; y: -1.5 degrees -1745 = 2F F9; 20 C: -1280 = 00 FB (0.015 mg and 1/256 K a count).
    const counts = iis2iclx.counts(
      [
        { kind: 'bytes', bytes: Uint8Array.of(0x17, 0x09, 0x2f, 0xf9) },
        { kind: 'bytes', bytes: Uint8Array.of(0x00, 0xfb) },
      ],
      0,
    );
    expect(counts).toEqual([
      { count: 2327, fault: null },
      { count: -1745, fault: null },
      { count: -1280, fault: null },
    ]);
  });

  it('gives null and the fault where a step failed, and keeps what did not', () => {
    const counts = iis2iclx.counts(
      [
        { kind: 'failed', code: 'bus-no-answer' },
        { kind: 'bytes', bytes: Uint8Array.of(0x00, 0x01) },
      ],
      7,
    );
    expect(counts).toEqual([
      { count: null, fault: 'bus-no-answer' },
      { count: null, fault: 'bus-no-answer' },
      { count: 256, fault: null },
    ]);
  });
});
