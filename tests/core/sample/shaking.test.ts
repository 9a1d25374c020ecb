import { describe, expect, it } from 'vitest';
import { Shaking, type ShakingMark } from '#core/sample/shaking.ts';
import { Smoother } from '#core/sample/smoothing.ts';

/** Twenty seconds at so many samples a second, smoothed as a receiver does it. */
function marksOf(heel: (timeS: number) => number | null, rateHz = 50): ShakingMark[] {
  const smoother = new Smoother();
  const shaking = new Shaking();
  return Array.from({ length: 20 * rateHz }, (_, k) => 100 + k / rateHz).flatMap((timeS) => {
    shaking.push(timeS, heel(timeS));
    return smoother.push(timeS, heel(timeS)).flatMap((sample) => shaking.smoothed(sample));
  });
}
const roll = (timeS: number) => 2 + 1.5 * Math.sin((2 * Math.PI * timeS) / 5);

describe('how an instrument shakes before it is smoothed', () => {
  it('is the root mean square of the shaking, and how often it swings', () => {
    const marks = marksOf((s) => roll(s) + 0.4 * Math.sin(2 * Math.PI * 17 * s + 0.3));
    expect(marks.length).toBeGreaterThan(15);
    expect(marks.map(({ toS }) => toS)).toEqual(marks.map((_, k) => marks[0]!.toS + k));
    // A sine of amplitude 0.4 has a root mean square of 0.4 / sqrt 2.
    for (const { rmsDeg, frequencyHz } of marks.slice(1)) {
      expect(rmsDeg).toBeCloseTo(0.4 / Math.SQRT2, 2);
      expect(Math.abs(frequencyHz - 17)).toBeLessThanOrEqual(1);
    }
  });

  it('is next to nothing of rolling alone', () => {
    for (const { rmsDeg } of marksOf(roll)) expect(rmsDeg).toBeLessThan(0.004);
  });

  it('keeps the largest sample, which the smoothed course does not show', () => {
    const marks = marksOf((s) => (Math.abs(s - 110.5) < 0.005 ? 29.9 : 0.1));
    const at = marks.find(({ toS }) => toS === 111)!;
    expect(at.mostDeg).toBe(29.9);
    expect(marks.filter(({ mostDeg }) => mostDeg > 1)).toEqual([at]);
  });

  it('says nothing of seconds it has no samples of', () => {
    const marks = marksOf((s) => (s > 105 && s < 109 ? null : roll(s)));
    const told = marks.map(({ toS }) => toS);
    for (const toS of [107, 108, 109]) expect(told).not.toContain(toS);
    expect(told).toContain(112);
  });
});
