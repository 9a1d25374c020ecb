import { describe, expect, it } from 'vitest';
import { runsOfRecord } from '#core/reduction/roll-runs.ts';
import { INSTRUMENTS } from '#core/sample/layout.ts';
import { MARRAM_ROLL, marramReality } from '#device/emulated/marram.ts';
import { SALLY_CYCLES, sallyMomentTM } from '#device/emulated/sally.ts';
import { ALL_QUIET, createSimulatedWorld } from '#device/emulated/simulated-world.ts';
import { naturalPeriodS } from '#device/emulated/vessel.ts';

describe('people who set her rolling', () => {
  it('push three times over and back, and stand still', () => {
    expect(sallyMomentTM(0, 4, 0.2)).toBe(0);
    expect(sallyMomentTM(1, 4, 0.2)).toBeCloseTo(0.2, 12);
    expect(sallyMomentTM(3, 4, 0.2)).toBeCloseTo(-0.2, 12);
    expect(sallyMomentTM(SALLY_CYCLES * 4, 4, 0.2)).toBe(0);
    expect(sallyMomentTM(-1, 4, 0.2)).toBe(0);
  });

  it('leave a free roll of her own period behind, in the simulated world', () => {
    const world = createSimulatedWorld({ seed: 5 });
    world.command(20, { state: 0, weights: [], disturbances: ALL_QUIET, sway: true });
    const timeS = Array.from({ length: 900 }, (_, k) => 1 + k / 10);
    const heelDeg = timeS.map(
      (t) => (Math.asin(world.specificForceG(INSTRUMENTS.fore, t).yG) * 180) / Math.PI,
    );
    const free = runsOfRecord({ timeS, heelDeg }).filter((run) => run.refused === null);
    expect(free).toHaveLength(1);
    const { periodS, fromS, amplitudeFromDeg } = free[0]!;
    const truthS = naturalPeriodS(marramReality(5).form, MARRAM_ROLL);
    // quadratic damping and a metacentre that moves: the natural period to 1 %
    expect(periodS.value / truthS).toBeCloseTo(1, 1.7);
    expect(fromS).toBeGreaterThan(20 + SALLY_CYCLES * truthS - truthS);
    expect(amplitudeFromDeg).toBeGreaterThan(0.7);
    expect(amplitudeFromDeg).toBeLessThan(4);
  });
});
