import { describe, expect, it } from 'vitest';
import { marramBerth, marramReality } from '#device/emulated/marram.ts';
import { Quay } from '#device/emulated/quay.ts';
import { ALL_QUIET } from '#device/emulated/simulated-world.ts';

const STEP_S = 0.02;
const berth = marramBerth(marramReality(1).form);
const series = (switches: Partial<typeof ALL_QUIET>, seconds = 600, seed = 5) => {
  const quay = new Quay(seed, berth, STEP_S);
  const all = { ...ALL_QUIET, ...switches };
  return Array.from({ length: seconds / STEP_S }, (_, step) => quay.advance(step + 1, all));
};
const mean = (values: readonly number[]) =>
  values.reduce((sum, one) => sum + one, 0) / values.length;
const deviation = (values: readonly number[]) => {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((one) => (one - middle) ** 2)));
};

describe('the berth', () => {
  it('is quiet but never still: heel of a few hundredths of a degree', () => {
    const heelDeg = (deviation(series({})) / berth.stiffnessTM) * (180 / Math.PI);
    expect(heelDeg).toBeGreaterThan(0.005);
    expect(heelDeg).toBeLessThan(0.05);
  });

  it('adds each disturbance on top of the same quiet berth', () => {
    const quiet = series({});
    for (const name of ['gusts', 'wakes', 'walking'] as const) {
      const added = series({ [name]: true }).map((moment, k) => moment - quiet[k]!);
      // Nothing at first, then more than a tenth of a degree at its worst.
      expect(Math.max(...added.slice(0, 3 / STEP_S).map(Math.abs))).toBeLessThan(0.01);
      expect(Math.max(...added.map(Math.abs)) / berth.stiffnessTM).toBeGreaterThan(0.1 / 57.3);
    }
    const windy = series({ wind: true }, 3000);
    expect(mean(windy)).toBeGreaterThan(mean(series({}, 3000)) + 0.03);
    const slow = (deviation(windy) / berth.stiffnessTM) * (180 / Math.PI);
    expect(slow).toBeGreaterThan(0.02);
    expect(slow).toBeLessThan(0.1);
  });

  it('fades a disturbance out when it is switched off', () => {
    const quay = new Quay(5, berth, STEP_S);
    const undisturbed = new Quay(5, berth, STEP_S);
    let left = 0;
    for (let step = 1; step * STEP_S < 60; step++) {
      const on = step * STEP_S < 20;
      const moment = quay.advance(step, { ...ALL_QUIET, walking: on, wind: on });
      left = Math.abs(moment - undisturbed.advance(step, ALL_QUIET));
    }
    expect(left).toBeLessThan(1e-6);
  });

  it('a snagged line holds her back on one side only', () => {
    const quay = new Quay(5, berth, STEP_S);
    for (let step = 1; step * STEP_S < 30; step++) {
      quay.advance(step, { ...ALL_QUIET, snaggedLine: true });
    }
    expect(quay.lineMomentTM(0.03)).toBeLessThan(-0.1);
    expect(quay.lineMomentTM(0)).toBeCloseTo(0, 12);
    expect(quay.lineMomentTM(-0.05)).toBeCloseTo(0, 12);
    expect(new Quay(5, berth, STEP_S).lineMomentTM(0.05)).toBeCloseTo(0, 12);
  });
});
