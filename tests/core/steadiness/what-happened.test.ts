import { describe, expect, it } from 'vitest';
import { blockMeans } from '#core/steadiness/heel-blocks.ts';
import { BLOCK_S, type RollModel } from '#core/steadiness/roll-model.ts';
import { lastingChange, whatHappened } from '#core/steadiness/what-happened.ts';
import { pushedHeel } from '#core/steadiness/whitened.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

const roll = { periodS: 4.7, dampingRatio: 0.05, rollDeg: 0.06 };
const model: RollModel = { ...roll, noiseDeg: 0.002, windDeg: [0.001, 0.0015, 0.002] };

/** A minute and a half of her rolling with a push from 40 s on. */
function pushed(seed: number, pushDeg: (sinceS: number) => number): Float64Array {
  const heel = blockMeans(simulatedHeel({ ...roll, seed, lengthS: 90, noiseDeg: 0.004 }), 0.1);
  const push = pushedHeel(model, heel.length, 100, pushDeg);
  return heel.map((value, k) => value + push[k]!);
}
const clamp = (share: number) => Math.min(1, Math.max(0, share));

describe('what happened', () => {
  it('tells a gust, which comes and goes, from a wind that stays and from somebody walking over', () => {
    const gust = (s: number) => (s < 3 ? s / 3 : clamp(1 - (s - 3) / 12));
    const cases: [string, (s: number) => number][] = [
      ['gust', (s) => 0.3 * gust(s)],
      ['wind', (s) => 0.3 * clamp(s / 14)],
      ['moved', (s) => 0.3 * clamp(s / 2)],
    ];
    for (const [kind, pushDeg] of cases) {
      for (let seed = 1; seed < 5; seed++) {
        const found = whatHappened(pushed(seed, pushDeg), model, 104);
        expect(found?.kind).toBe(kind);
        expect(Math.abs(found!.from - 100)).toBeLessThanOrEqual(14);
        expect(found!.sizeDeg / 0.3).toBeGreaterThan(0.7);
        expect(found!.sizeDeg / 0.3).toBeLessThan(1.4);
        expect(found!.sentence).toMatch(/to starboard by 0\.[234]\d°/);
      }
    }
  });

  it('leaves open whether a new heel lasts while it may be the beginning of a gust', () => {
    const gust = (s: number) => (s < 3 ? s / 3 : clamp(1 - (s - 3) / 18));
    const moved = (s: number) => clamp(s / 2);
    const after = (pushDeg: (s: number) => number, blocks: number) =>
      Array.from({ length: 6 }, (_, seed) => {
        const heel = pushed(seed, (s) => 0.3 * pushDeg(s)).slice(0, 100 + blocks);
        return whatHappened(heel, model, 104);
      });
    // 4 s after the onset nobody can know; 24 s after it she has stayed, or has come back.
    for (const found of [...after(gust, 10), ...after(moved, 10)])
      expect(found === null || !found.isLasting || found.mayPass).toBe(true);
    for (const found of after(moved, 60))
      expect(found).toMatchObject({ kind: 'moved', isLasting: true, mayPass: false });
    for (const found of after(gust, 60))
      expect(found).toMatchObject({ kind: 'gust', mayPass: false });
  });

  it('knows a wake by waves that begin long and grow shorter: Kelvin, a boat at 5 m/s 100 m off', () => {
    // First waves at 0.382 Hz, rising .0078 Hz each second (sqrt(3/2) g / (2 pi U); g / (4 pi y0)).
    const wake = (s: number) =>
      0.4 * Math.exp(-s / 13) * Math.sin(2 * Math.PI * (0.382 * s + 0.0039 * s * s));
    for (let seed = 1; seed < 5; seed++) {
      const found = whatHappened(pushed(seed, wake), model, 104);
      expect(found?.kind).toBe('wake');
      expect(found!.sentence).toMatch(/^waves from outside: some [23]\.\d s long at first/);
    }
  });

  it('says nothing of a quiet time', () => {
    const found = Array.from({ length: 12 }, (_, seed) =>
      whatHappened(
        pushed(seed, () => 0),
        model,
        104,
      ),
    );
    expect(found.filter((one) => one !== null).length).toBeLessThanOrEqual(1);
  });

  it('finds a heel that changes slowly anywhere in what is counted, and none where there is none', () => {
    for (let seed = 1; seed < 6; seed++) {
      const found = lastingChange(
        pushed(seed, (s) => -0.12 * clamp(s / 14)),
        model,
      );
      expect(found?.kind).toBe('wind');
      expect(Math.abs(found!.from * BLOCK_S - 40)).toBeLessThan(10);
      expect(found!.sizeDeg).toBeLessThan(-0.06);
      expect(
        lastingChange(
          pushed(seed, () => 0),
          model,
        ),
      ).toBeNull();
    }
  });
});
