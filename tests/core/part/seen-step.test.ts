import { expect, it } from 'vitest';
import { SeenStep } from '#core/part/seen-step.ts';

const seenOf = (values: readonly number[]) => {
  const step = new SeenStep();
  return values.map((value) => step.see(value)).at(-1) ?? null;
};
/** Ten readings a second of a roll of one degree in five seconds. */
const rolling = (placeDeg: number, count: number) =>
  Array.from({ length: count }, (_, k) => {
    const heelDeg = Math.sin((2 * Math.PI * k) / 50 + k * 0.01);
    return Math.round(heelDeg / placeDeg) * placeDeg;
  });

it('tells the step an instrument moves in, whatever it prints', () => {
  expect(seenOf(rolling(0.1, 300))).toBeCloseTo(0.1, 12);
  expect(seenOf(rolling(0.5, 2000))).toBeCloseTo(0.5, 12);
  // What shows small differences is not called coarse.
  expect(seenOf(rolling(0.001, 300))).toBeLessThan(0.01);
});

it('says nothing before there were changes enough, nor of something at rest', () => {
  expect(seenOf(rolling(0.001, 50))).toBeNull();
  expect(seenOf(Array.from({ length: 1000 }, () => 1.5))).toBeNull();
});
