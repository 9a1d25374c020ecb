import { expect, test } from 'vitest';
import { Abp2 } from '#device/emulated/chips/abp2.ts';

function chipOf(pressureCounts: number) {
  const chip = new Abp2(0x28, {
    read: () => ({ pressureCounts, temperatureCounts: 5_872_026 }),
  });
  const start = (bytes: number[], timeS: number) => {
    chip.begin(true, timeS);
    for (const byte of bytes) chip.write(byte);
    chip.end(timeS);
  };
  const read = (count: number, timeS: number) => {
    chip.begin(false, timeS);
    return Array.from({ length: count }, () => chip.read());
  };
  return { start, read };
}

test('a measurement takes 5 ms, and says so until then', () => {
  const { start, read } = chipOf(1_677_722);
  expect(read(1, 0)).toEqual([0x40]);
  start([0xaa, 0, 0], 1);
  expect(read(1, 1.004)[0]).toBe(0x60);
  // 10 % of 2^24, and 20 degrees.
  expect(read(7, 1.0051)).toEqual([0x40, 0x19, 0x99, 0x9a, 0x59, 0x99, 0x9a]);
});

test('another command starts nothing', () => {
  const { start, read } = chipOf(1_677_722);
  start([0xab, 0, 0], 1);
  start([0xaa], 1);
  expect(read(7, 2)).toEqual([0x40, 0, 0, 0, 0, 0, 0]);
});

test.each([-5, 2 ** 24])('beyond its register (%i) it saturates and says so', (counts) => {
  const { start, read } = chipOf(counts);
  start([0xaa, 0, 0], 1);
  const end = counts < 0 ? 0 : 0xff;
  expect(read(4, 2)).toEqual([0x41, end, end, end]);
});
