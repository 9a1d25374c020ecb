import { describe, expect, it } from 'vitest';
import { RawShaking } from '#core/steadiness/raw-shaking.ts';

function shaken(seconds: readonly { rmsDeg: number; frequencyHz?: number; mostDeg?: number }[]) {
  const shaking = new RawShaking();
  return seconds.map((second, k) => {
    shaking.push({ frequencyHz: 17, mostDeg: 2, ...second, toS: k + 1 });
    return { told: shaking.told(), spoils: shaking.spoils(), sinceS: shaking.sinceS };
  });
}
const quiet = Array.from({ length: 30 }, (_, k) => ({ rmsDeg: 0.02 + 0.002 * Math.sin(k) }));
const for10S = <T>(second: T) => Array.from({ length: 10 }, () => second);

describe('shaking that the smoothing hides', () => {
  it('of an engine is told as long as it runs, and spoils nothing', () => {
    const seen = shaken([...quiet, ...for10S({ rmsDeg: 0.5 }), ...quiet]);
    const told = seen.flatMap(({ told: words }, k) => (words === null ? [] : [k]));
    expect(told).toEqual(Array.from({ length: 10 }, (_, k) => 30 + k));
    expect(seen[35]!.told).toMatch(/^shakes 0\.50° from sample to sample/);
    expect(seen.every(({ spoils }) => spoils === null)).toBe(true);
  });

  it('spoils the heel where it reaches the end of the range, until three seconds are good', () => {
    const seen = shaken([...quiet, ...for10S({ rmsDeg: 6, mostDeg: 30 }), ...quiet]);
    const spoilt = seen.flatMap(({ spoils }, k) => (spoils === null ? [] : [k]));
    expect(spoilt).toEqual(Array.from({ length: 11 }, (_, k) => 31 + k));
    expect(seen[31]).toMatchObject({
      sinceS: 30,
      spoils: expect.stringMatching(/end of its range/),
    });
  });

  it.each([
    [3, 10, true],
    [3, 19, true],
    [3, 15, false],
    [3, 4, false],
    [1.5, 10, false],
  ])('of %s degrees at %s Hz folds among her rolling: %s', (rmsDeg, frequencyHz, folds) => {
    const seen = shaken([...quiet, ...for10S({ rmsDeg, frequencyHz })]);
    expect(seen.at(-1)!.spoils !== null).toBe(folds);
  });

  it('is no single bad second', () => {
    const seen = shaken([...quiet, { rmsDeg: 6, mostDeg: 30 }, ...quiet]);
    expect(seen.every(({ spoils }) => spoils === null)).toBe(true);
  });
});
