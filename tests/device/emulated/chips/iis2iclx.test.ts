import { beforeEach, describe, expect, test } from 'vitest';
import { Iis2iclx } from '#device/emulated/chips/iis2iclx.ts';
import type { InclinometerElement } from '#device/emulated/elements/element.ts';

/** An element whose counts are set by hand, a new tick every 1/ODR. */
class HandElement implements InclinometerElement {
  configured: { odrHz: number; bandwidthHz: number; rangeG: number }[] = [];
  xCounts = 0;
  yCounts = 0;
  temperatureCounts = 0;

  configure(settings: { odrHz: number; bandwidthHz: number; rangeG: number }): void {
    this.configured.push(settings);
  }

  read(timeS: number) {
    const { xCounts, yCounts, temperatureCounts } = this;
    const tick = Math.floor(timeS * (this.configured.at(-1)?.odrHz ?? 1));
    return { tick, xCounts, yCounts, temperatureCounts, saturated: false };
  }
}

let element: HandElement;
let chip: Iis2iclx;

beforeEach(() => {
  element = new HandElement();
  chip = new Iis2iclx(0x6a, element);
});

function write(register: number, bytes: number[], timeS = 0): void {
  chip.begin(true);
  chip.write(register, timeS);
  for (const byte of bytes) chip.write(byte, timeS);
  chip.end();
}

function read(register: number, count: number, timeS = 1): number[] {
  write(register, [], timeS);
  chip.begin(false);
  const bytes = Array.from({ length: count }, () => chip.read(timeS));
  chip.end();
  return bytes;
}

test.each([0x6a, 0x6b] as const)('at %d it gives its identity', (address) => {
  chip = new Iis2iclx(address, element);
  expect(chip.address).toBe(address);
  expect(read(0x0f, 1)).toEqual([0x6b]);
  write(0x0f, [0]);
  expect(read(0x0f, 1)).toEqual([0x6b]);
});

/** Counts and bytes of the nominal 0.015 mg a count: DS13005 Rev 7, Table 2; computed by sin. */
test.each([
  [0.01, 12, [0x0c, 0x00]],
  [1, 1163, [0x8b, 0x04]],
  [2, 2327, [0x17, 0x09]],
  [-1.5, -1745, [0x2f, 0xf9]],
  [4, 4650, [0x2a, 0x12]],
])('%d degree is %d counts, low byte first', (deg, counts, bytes) => {
  element.yCounts = Math.round(Math.sin((deg * Math.PI) / 180) / 0.015e-3);
  expect(Math.abs(element.yCounts - counts)).toBeLessThanOrEqual(1);
  element.yCounts = counts;
  write(0x10, [0x30]);
  expect(read(0x2a, 2)).toEqual(bytes);
});

test('20 degrees are 00 FB', () => {
  element.temperatureCounts = (20 - 25) * 256;
  write(0x10, [0x30]);
  expect(read(0x20, 2)).toEqual([0x00, 0xfb]);
});

describe('settings', () => {
  test.each([
    [0x10, 0x00, 12.5, 6.25, 0.5],
    [0x20, 0x00, 26, 13, 0.5],
    [0x32, 0x00, 52, 13, 0.5],
    [0x32, 0x40, 52, 2.6, 0.5],
    [0x42, 0xe0, 104, 0.13, 0.5],
    [0x56, 0x20, 208, 20.8, 3],
    [0x6a, 0x60, 416, 416 / 45, 1],
    [0x7e, 0x80, 833, 8.33, 2],
  ])('CTRL1_XL %d, CTRL8_XL %d', (ctrl1, ctrl8, odrHz, bandwidthHz, rangeG) => {
    write(0x17, [ctrl8]);
    write(0x10, [ctrl1]);
    const settings = element.configured.at(-1)!;
    expect(settings.odrHz).toBe(odrHz);
    // Table 53; without LPF2 half the rate.
    expect(settings.bandwidthHz).toBeCloseTo(bandwidthHz, 9);
    expect(settings.rangeG).toBe(rangeG);
  });

  test('the same settings again do not start the filter anew', () => {
    write(0x10, [0x42]);
    write(0x10, [0x42]);
    write(0x13, [0x08]);
    expect(element.configured.length).toBe(1);
    write(0x17, [0x40]);
    expect(element.configured.length).toBe(2);
  });

  test('outputs stay at 0 until a rate is set, and stand when it is switched off', () => {
    element.xCounts = 77;
    expect(read(0x28, 2)).toEqual([0, 0]);
    expect(element.configured).toEqual([]);
    write(0x10, [0x30], 1);
    expect(read(0x28, 2, 2)).toEqual([77, 0]);
    write(0x10, [0x00], 2);
    element.xCounts = 78;
    expect(read(0x28, 2, 3)).toEqual([77, 0]);
  });

  test('a software reset clears all settings and is seen to end', () => {
    write(0x10, [0x42]);
    write(0x12, [0x45], 1);
    expect(read(0x12, 1, 1.00001)).toEqual([0x05]);
    expect(read(0x12, 1, 1.001)).toEqual([0x04]);
    expect(read(0x10, 1, 1.001)).toEqual([0]);
    expect(read(0x18, 1, 1.001)).toEqual([0xe0]);
  });

  test('the high-pass path takes the heel away', () => {
    element.yCounts = 2327;
    write(0x10, [0x42]);
    write(0x17, [0x44]);
    expect(read(0x2a, 2)).toEqual([0, 0]);
  });
});

describe('reading', () => {
  beforeEach(() => {
    write(0x10, [0x30]);
  });

  test('without IF_INC the address stays', () => {
    element.xCounts = 0x0102;
    write(0x12, [0x00]);
    expect(read(0x28, 4)).toEqual([2, 2, 2, 2]);
  });

  test('without block update, halves of two values mix; with it they do not', () => {
    const between = (): number => {
      element.yCounts = 0x00ff;
      write(0x2a, [], 1);
      chip.begin(false);
      const low = chip.read(1);
      element.yCounts = 0x0100;
      return low | (chip.read(1.1) << 8);
    };
    expect(between()).toBe(0x01ff);
    write(0x12, [0x44]);
    expect(between()).toBe(0x00ff);
    // The pair is read: the next value is a fresh one.
    expect(read(0x2a, 2)).toEqual([0x00, 0x01]);
  });

  test('status tells new data, and reading takes it', () => {
    expect(read(0x1e, 1, 1)).toEqual([0x05]);
    read(0x28, 4, 1);
    expect(read(0x1e, 1, 1)).toEqual([0x04]);
    read(0x20, 2, 1);
    expect(read(0x1e, 1, 1)).toEqual([0x00]);
    expect(read(0x1e, 1, 1.03)).toEqual([0x05]);
  });
});
