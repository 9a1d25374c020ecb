import { expect, test } from 'vitest';
import { Lsm6dso } from '#device/emulated/chips/lsm6dso.ts';

const configured: unknown[] = [];
const chip = new Lsm6dso(0x6a, {
  configure: (settings) => configured.push(settings),
  read: () => ({
    tick: 1,
    xCounts: -1,
    yCounts: 572,
    zCounts: 16_383,
    temperatureCounts: -1280,
    saturated: false,
  }),
});

function read(register: number, count: number): number[] {
  chip.begin(true);
  chip.write(register, 0);
  chip.begin(false);
  return Array.from({ length: count }, () => chip.read(1));
}

test('it says 0x6C, has three axes low byte first, and its own ranges', () => {
  expect(read(0x0f, 1)).toEqual([0x6c]);
  chip.begin(true);
  // 104 Hz, +-8 g (FS 11), LPF2 on at ODR/4.
  for (const byte of [0x10, 0x4e]) chip.write(byte, 0);
  expect(configured).toEqual([{ odrHz: 104, bandwidthHz: 26, rangeG: 8 }]);
  expect(read(0x28, 6)).toEqual([0xff, 0xff, 0x3c, 0x02, 0xff, 0x3f]);
  expect(read(0x20, 2)).toEqual([0x00, 0xfb]);
});
