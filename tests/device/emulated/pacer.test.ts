import { beforeEach, expect, test } from 'vitest';
import { Pacer } from '#device/emulated/pacer.ts';

let wallS: number;
let pacer: Pacer;
let horizonS: number;

beforeEach(() => {
  wallS = 100;
  horizonS = 0;
  pacer = new Pacer(20, () => wallS);
});

/** Looks every `lookS` for `seconds`; a slice that is begun takes `worksS` of the wall. */
function live(seconds: number, lookS: number, worksS = 0): number[] {
  const slices: number[] = [];
  const endS = wallS + seconds;
  while (wallS < endS) {
    const untilS = pacer.sliceUntilS(horizonS);
    if (untilS !== null) {
      slices.push(untilS - horizonS);
      horizonS = untilS;
      wallS += worksS;
      pacer.held(horizonS);
    }
    wallS += lookS;
  }
  return slices;
}

test('slices are short pieces of the wall, times the pace', () => {
  const slices = live(1, 0.004);
  expect(horizonS).toBeGreaterThan(19.8);
  expect(horizonS).toBeLessThanOrEqual(20);
  expect(Math.min(...slices)).toBeGreaterThanOrEqual(0.06 - 1e-9);
  expect(Math.max(...slices)).toBeLessThanOrEqual(0.2);
  expect(pacer.paceHeld()).toBeGreaterThan(19.5);
});

test('never ahead of the wall, and a short stop is caught up', () => {
  live(1, 0.004);
  wallS += 0.05;
  const beforeS = wallS;
  live(0.1, 0.001);
  expect(horizonS).toBeLessThanOrEqual((wallS - 100) * 20);
  expect(horizonS).toBeGreaterThan((beforeS - 100) * 20);
});

test('what cannot be held makes the pace fall, and time lost is not run after', () => {
  // A slice of 0.2 s takes 20 ms: at most 10 times the wall.
  live(3, 0.0001, 0.02);
  expect(horizonS).toBeLessThan(31);
  expect(pacer.paceHeld()).toBeGreaterThan(8);
  expect(pacer.paceHeld()).toBeLessThan(10.5);
  const fromS = horizonS;
  live(1, 0.004);
  expect(horizonS - fromS).toBeLessThan(20 + 1.3);
});

test('another pace goes on from where time stands', () => {
  live(1, 0.004);
  pacer.setPace(1, horizonS);
  const fromS = horizonS;
  live(2, 0.004);
  expect(horizonS - fromS).toBeGreaterThan(1.9);
  expect(horizonS - fromS).toBeLessThanOrEqual(2.01);
});

test.each([0, 0.5, 51, Number.NaN, Number.POSITIVE_INFINITY])('refuses a pace of %d', (pace) => {
  expect(() => new Pacer(pace, () => 0)).toThrow(RangeError);
  expect(() => pacer.setPace(pace, 0)).toThrow(RangeError);
});
