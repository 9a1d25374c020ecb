import { beforeEach, describe, expect, test } from 'vitest';
import { Ads1115 } from '#device/emulated/chips/ads1115.ts';

/** Config words by field (TI SBAS444): OS, MUX, PGA, MODE, DR, comparator. */
const AIN0_4V_8SPS = 0xc303;
const AIN1_4V_8SPS = 0xd303;
const AIN0_4V_128SPS = 0xc383;
const EIGHTH_S = 0.125;

let volts: number[];
let chip: Ads1115;
let asked: number[];

beforeEach(() => {
  volts = [1.5, 2.5];
  asked = [];
  chip = new Ads1115(0x48, {
    volts: (input, timeS) => {
      asked.push(timeS);
      return volts[input]!;
    },
  });
});

function write(register: number, word: number, timeS: number): void {
  chip.begin(true, timeS);
  for (const byte of [register, word >> 8, word & 0xff]) chip.write(byte, timeS);
  chip.end();
}

function read(register: number, timeS: number): number {
  chip.begin(true, timeS);
  chip.write(register, timeS);
  chip.end();
  chip.begin(false, timeS);
  const word = (chip.read(timeS) << 8) | chip.read(timeS);
  chip.end();
  return word;
}

test('registers after power-up', () => {
  expect([0, 1, 2, 3].map((register) => read(register, 0))).toEqual([0, 0x8583, 0x8000, 0x7fff]);
});

test('the pointer stays for reads without a new one, and a read may go on', () => {
  write(2, 0x1234, 0);
  chip.begin(false, 0);
  expect([chip.read(0), chip.read(0), chip.read(0)]).toEqual([0x12, 0x34, 0x12]);
});

describe('single shot', () => {
  test('takes its time, shows in OS, and is sampled in the middle', () => {
    write(1, AIN0_4V_8SPS, 1);
    expect(read(1, 1.001)).toBe(0x4303);
    expect(read(0, 1.124)).toBe(0);
    expect(read(1, 1 + EIGHTH_S)).toBe(0xc303);
    expect(read(0, 1 + EIGHTH_S)).toBe(12_000); // 1.5 V / 125 uV
    expect(asked).toEqual([1 + EIGHTH_S / 2]);
  });

  test('nothing is converted without OS', () => {
    write(1, AIN0_4V_8SPS & 0x7fff, 1);
    expect(read(0, 3)).toBe(0);
    expect(read(1, 3)).toBe(0xc303);
  });

  test('a start during a conversion has no effect: the input of the first one is told', () => {
    write(1, AIN0_4V_8SPS, 0);
    write(1, AIN1_4V_8SPS, 0.05);
    expect(read(0, 0.2)).toBe(12_000);
    expect(read(0, 1)).toBe(12_000);
    write(1, AIN1_4V_8SPS, 1);
    expect(read(0, 1.2)).toBe(20_000);
  });

  test('a conversion nobody asks about is taken by settling', () => {
    write(1, AIN0_4V_128SPS, 1);
    chip.settle(1.02);
    volts = [0, 0];
    expect(read(0, 500)).toBe(12_000);
  });

  test('power lost: all forgotten', () => {
    write(1, AIN0_4V_8SPS, 1);
    chip.powerUp();
    expect(read(0, 2)).toBe(0);
    expect(read(1, 2)).toBe(0x8583);
  });
});

describe('continuous', () => {
  test('always converting; each read gives the newest done', () => {
    write(1, 0x4203, 0);
    expect(read(1, 0.06)).toBe(0x4203);
    expect(read(0, EIGHTH_S)).toBe(12_000);
    volts[0] = 1.6;
    expect(read(0, 2 * EIGHTH_S)).toBe(12_800);
    expect(read(0, 10.05)).toBe(12_800);
    // The newest done at 10.05 s began at 9.875 s.
    expect(asked.at(-1)).toBeCloseTo(9.875 + EIGHTH_S / 2, 9);
  });

  test('another input holds from the conversion after the one under way', () => {
    write(1, 0x4203, 0);
    write(1, 0x5203, 0.3);
    expect(read(0, 0.374)).toBe(12_000);
    expect(read(0, 0.376)).toBe(12_000);
    expect(read(0, 0.51)).toBe(20_000);
  });
});

/** PGA field and counts of 0.2 V; full scales 6.144, 4.096, 2.048, 1.024, 0.512, 0.256 V over 2^15. */
test.each([
  [0, 1067],
  [1, 1600],
  [2, 3200],
  [3, 6400],
  [4, 12_800],
  [5, 25_600],
  [7, 25_600],
])('PGA field %d', (field, counts) => {
  volts = [0.2, 0];
  write(1, 0xc103 | (field << 9), 0);
  expect(read(0, 0.2)).toBe(counts);
});

test.each([
  ['AIN0-AIN1', 0, -8000],
  ['AIN0-AIN3', 1, 12_000],
  ['AIN1-AIN3', 2, 20_000],
  ['AIN2-AIN3', 3, 0],
  ['AIN2', 6, 0],
])('MUX %s', (_, field, counts) => {
  write(1, 0x8303 | (field << 12), 0);
  expect((read(0, 0.2) << 16) >> 16).toBe(counts);
});

test('it stops at the ends of its range', () => {
  volts = [5, -5];
  write(1, AIN0_4V_8SPS, 0);
  expect(read(0, 0.2)).toBe(0x7fff);
  write(1, AIN1_4V_8SPS, 1);
  expect(read(0, 1.2)).toBe(0x8000);
});

/** DR field: conversions a second. */
test.each([8, 16, 32, 64, 128, 250, 475, 860].map((rate, field) => [field, rate] as const))(
  'DR field %d: %d a second',
  (field, rate) => {
    write(1, 0xc303 | (field << 5), 0);
    expect(read(0, 0.999 / rate)).toBe(0);
    expect(read(0, 1.001 / rate)).toBe(12_000);
  },
);
