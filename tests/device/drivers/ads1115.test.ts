import { describe, expect, it } from 'vitest';
import { ads1115 } from '#device/drivers/ads1115.ts';
import { dataRateCode } from '#device/drivers/two-inputs.ts';
import { faultOf, scriptedChip } from '../support/scripted-bus.ts';

const PERIOD_US = 20_000;
const THRESHOLDS = [
  { read: [2, 2], answer: [0x80, 0x00] },
  { read: [3, 2], answer: [0x7f, 0xff] },
] as const;

describe('ADS1115', () => {
  it('is set up for AIN0 against ground, +-4.096 V, single shot, 128 a second', async () => {
    // C3 83: start, MUX 100, PGA 001, single shot; DR 100, comparator off.
    const { chip, done } = scriptedChip(0x48, [
      ...THRESHOLDS,
      { write: [1, 0xc3, 0x83] },
      { read: [1, 2], answer: [0x43, 0x83] },
    ]);
    await ads1115.configure(chip, PERIOD_US);
    done();
  });

  it('is refused when its thresholds are not those of power-up', async () => {
    const { chip, done } = scriptedChip(0x48, [{ read: [2, 2], answer: [0xff, 0xff] }]);
    expect(await faultOf(ads1115.configure(chip, PERIOD_US))).toBe('chip-wrong-identity');
    done();
  });

  it('is refused when it does not keep its configuration', async () => {
    const { chip, done } = scriptedChip(0x49, [
      ...THRESHOLDS,
      { write: [1, 0xc3, 0x83] },
      { read: [1, 2], answer: [0x85, 0x83] },
    ]);
    expect(await faultOf(ads1115.configure(chip, PERIOD_US))).toBe('chip-not-configured');
    done();
  });

  it('switches its input in every scan: AIN0 is started in even ones, AIN1 in odd ones', () => {
    expect(ads1115.steps(PERIOD_US)).toEqual([
      { register: 0, readCount: 2, write: [], when: 'always', fromFrameBefore: true },
      { register: 1, readCount: 0, write: [0xc3, 0x83], when: 'even', fromFrameBefore: false },
      { register: 1, readCount: 0, write: [0xd3, 0x83], when: 'odd', fromFrameBefore: false },
    ]);
  });

  it.each([
    [200_000, 0],
    [20_000, 4],
    [10_000, 5],
    [5000, 7],
  ])('converts as slowly as a scan every %i us allows (code %i)', (periodUs, code) => {
    expect(dataRateCode(periodUs)).toBe(code);
  });

  it('refuses scans no conversion fits into', () => {
    expect(() => dataRateCode(4000)).toThrow(RangeError);
  });

  const written = { kind: 'bytes', bytes: new Uint8Array(0) } as const;
  const notDue = { kind: 'not-due' } as const;

  it('gives an even scan to starboard and an odd one to port, high byte first and signed', () => {
    const bytes = { kind: 'bytes', bytes: Uint8Array.of(0xff, 0xfe) } as const;
    const none = { count: null, fault: null };
    expect(ads1115.counts([bytes, written, notDue], 4)).toEqual([none, { count: -2, fault: null }]);
    expect(ads1115.counts([bytes, notDue, written], 5)).toEqual([{ count: -2, fault: null }, none]);
  });

  it('says which leg a failed conversion or a failed start belongs to', () => {
    const failed = { kind: 'failed', code: 'bus-no-answer' } as const;
    const fault = { count: null, fault: 'bus-no-answer' };
    const good = { kind: 'bytes', bytes: Uint8Array.of(0x01, 0x00) } as const;
    expect(ads1115.counts([failed, written, notDue], 4)).toEqual([
      { count: null, fault: null },
      fault,
    ]);
    expect(ads1115.counts([good, failed, notDue], 4)).toEqual([fault, { count: 256, fault: null }]);
  });
});
