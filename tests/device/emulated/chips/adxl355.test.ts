import { beforeEach, expect, test } from 'vitest';
import { Adxl355 } from '#device/emulated/chips/adxl355.ts';
import type { InclinometerElement } from '#device/emulated/elements/element.ts';

class HandElement implements InclinometerElement {
  configured: { odrHz: number; bandwidthHz: number; rangeG: number }[] = [];
  xCounts = 0;
  yCounts = 0;
  zCounts = 0;
  temperatureCounts = 0;

  configure(settings: { odrHz: number; bandwidthHz: number; rangeG: number }): void {
    this.configured.push(settings);
  }

  read(timeS: number) {
    const { xCounts, yCounts, zCounts, temperatureCounts } = this;
    const tick = Math.floor(timeS * (this.configured.at(-1)?.odrHz ?? 1));
    return { tick, xCounts, yCounts, zCounts, temperatureCounts, saturated: false };
  }
}

let element: HandElement;
let chip: Adxl355;

beforeEach(() => {
  element = new HandElement();
  chip = new Adxl355(0x1d, element);
});

function write(register: number, bytes: number[], timeS = 0): void {
  chip.begin(true);
  for (const byte of [register, ...bytes]) chip.write(byte, timeS);
  chip.end();
}

function read(register: number, count: number, timeS = 1): number[] {
  write(register, [], timeS);
  chip.begin(false);
  return Array.from({ length: count }, () => chip.read(timeS));
}

test('it gives its identity, which cannot be written', () => {
  expect(read(0x00, 4)).toEqual([0xad, 0x1d, 0xed, 0x01]);
  write(0x00, [0, 0]);
  expect(read(0x00, 3)).toEqual([0xad, 0x1d, 0xed]);
});

test('it begins in standby with the values of Table 14, and comes back to them by 0x52 only', () => {
  const reset = [0x00, 0x60, 0x00, 0x00, 0x81, 0x01];
  expect(read(0x28, 6)).toEqual(reset);
  write(0x28, [0x07]);
  write(0x2f, [0x51]);
  expect(read(0x28, 1)).toEqual([0x07]);
  write(0x2f, [0x52]);
  expect(read(0x28, 6)).toEqual(reset);
});

test('it takes rate and range when it begins to measure, and no more while it does', () => {
  write(0x28, [0x07]);
  write(0x2c, [0x01]);
  expect(element.configured).toEqual([]);
  write(0x2d, [0x00]);
  write(0x28, [0x00]);
  // Code 7: 31.25 Hz, low-pass at 7.8125 Hz (Table 44).
  expect(element.configured).toEqual([{ odrHz: 31.25, bandwidthHz: 7.8125, rangeG: 2 }]);
  expect(read(0x28, 1)).toEqual([0x07]);
});

/** Counts of these heels at 256 000 a g and their three bytes; 20 C by the later intercept. */
test.each([
  [0.01, 45, [0x00, 0x02, 0xd0]],
  [1, 4468, [0x01, 0x17, 0x40]],
  [2, 8934, [0x02, 0x2e, 0x60]],
  [-1.5, -6701, [0xfe, 0x5d, 0x30]],
  [4, 17_858, [0x04, 0x5c, 0x20]],
  [90, 256_000, [0x3e, 0x80, 0x00]],
])('at %f degrees it gives %i as its bytes', (_, counts, bytes) => {
  write(0x2d, [0x00]);
  element.yCounts = counts;
  element.zCounts = 255_844;
  element.temperatureCounts = 0x78a;
  expect(read(0x06, 12)).toEqual([0x07, 0x8a, 0, 0, 0, ...bytes, 0x3e, 0x76, 0x40, 0]);
});

test('its high-pass takes the heel away', () => {
  write(0x28, [0x10]);
  write(0x2d, [0x00]);
  element.yCounts = 4468;
  expect(read(0x0b, 3)).toEqual([0, 0, 0]);
});

test('DATA_RDY falls when its data are read', () => {
  write(0x2d, [0x00]);
  expect(read(0x04, 1)).toEqual([1]);
  read(0x08, 9);
  expect(read(0x04, 1)).toEqual([0]);
  expect(read(0x04, 1, 2)).toEqual([1]);
});
