import { describe, expect, it } from 'vitest';
import { abp2 } from '#device/drivers/abp2.ts';
import { faultOf, scriptedChip } from '../support/scripted-bus.ts';

const PERIOD_US = 20_000;
const frame = (...bytes: number[]) => [{ kind: 'bytes', bytes: Uint8Array.from(bytes) } as const];

describe('ABP2', () => {
  it('is proven by one measurement from beginning to end', async () => {
    const { chip, done } = scriptedChip(0x28, [
      { read: [null, 1], answer: [0x40] },
      { write: [0xaa, 0, 0] },
      { waitS: 0.01 },
      { read: [null, 7], answer: [0x40, 0x19, 0x99, 0x9a, 0x59, 0x99, 0x9a] },
    ]);
    await abp2.configure(chip, PERIOD_US);
    done();
  });

  it.each([
    ['another chip', 0x00, 'chip-wrong-identity'],
    ['a floating line', 0xff, 'chip-wrong-identity'],
    ['a broken memory', 0x44, 'chip-memory'],
  ])('is refused for %s (status %i)', async (_, status, code) => {
    const { chip } = scriptedChip(0x28, [{ read: [null, 1], answer: [status] }]);
    expect(await faultOf(abp2.configure(chip, PERIOD_US))).toBe(code);
  });

  it('is refused when its measurement does not end', async () => {
    const { chip } = scriptedChip(0x28, [
      { read: [null, 1], answer: [0x40] },
      { write: [0xaa, 0, 0] },
      { waitS: 0.01 },
      { read: [null, 7], answer: [0x60, 0, 0, 0, 0, 0, 0] },
    ]);
    expect(await faultOf(abp2.configure(chip, PERIOD_US))).toBe('chip-not-configured');
  });

  it.each([
    [0x40, null],
    [0x41, 'chip-saturated'],
    [0x44, 'chip-memory'],
    [0x60, 'chip-not-ready'],
    [0x00, 'chip-wrong-identity'],
  ])('reads 24 bits of each, and status %i as %s', (status, fault) => {
    // 10 % of 2^24 is 0x19999A; 20 degrees are 70/200 of it, 0x59999A.
    const counts = abp2.counts(frame(status, 0x19, 0x99, 0x9a, 0x59, 0x99, 0x9a), 3);
    expect(counts).toEqual([
      { count: 1_677_722, fault },
      { count: 5_872_026, fault },
    ]);
  });

  it('reads what the scan before has started, and starts the next', () => {
    expect(abp2.steps(PERIOD_US)).toEqual([
      { register: null, readCount: 7, write: [], when: 'always', fromFrameBefore: true },
      { register: 0xaa, readCount: 0, write: [0, 0], when: 'always', fromFrameBefore: false },
    ]);
    expect(() => abp2.steps(5000)).toThrow(RangeError);
  });
});
