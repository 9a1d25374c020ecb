import { describe, expect, it } from 'vitest';
import { gFromCounts, temperatureCFromCounts } from '#core/part/iis2iclx.ts';
import { createInclinometerElement } from '#device/emulated/elements/inclinometer.ts';
import type { World } from '#device/emulated/world.ts';

const SETTINGS = { odrHz: 104, bandwidthHz: 10.4, rangeG: 0.5 };
/** A bench that holds a steady sine. */
const bench = (yG: number, temperatureC = 25): World => ({
  specificForceG: () => ({ xG: 0, yG, zG: 1 }),
  legLevelMm: () => 0,
  temperatureC: () => temperatureC,
});
const element = (world: World, seed = 1, instrument = 'fore') =>
  createInclinometerElement({ world, instrument, seed });
const meanY = (one: ReturnType<typeof element>, fromS = 1, seconds = 20) => {
  let sum = 0;
  const reads = seconds * 50;
  for (let k = 0; k < reads; k++) sum += one.read(fromS + k / 50).yCounts;
  return gFromCounts(sum / reads);
};

describe('the sensing element of an inclinometer', () => {
  it('has a gain within 2 %, a zero within 8 mg and little drift, another in each seed', () => {
    const gains = new Set<number>();
    for (let seed = 0; seed < 12; seed++) {
      const mean = (yG: number, temperatureC = 25) => {
        const one = element(bench(yG, temperatureC), seed);
        one.configure(SETTINGS, 0);
        return meanY(one, 1, 4);
      };
      const gain = (mean(0.1) - mean(-0.1)) / 0.2;
      const zeroG = mean(0);
      expect(Math.abs(gain - 1)).toBeLessThan(0.0201);
      expect(Math.abs(zeroG)).toBeLessThan(0.0081);
      // 0.075 mg/K is the most the sheet allows (three sigma); 10 K.
      expect(Math.abs(mean(0, 35) - zeroG)).toBeLessThan(0.75e-3);
      gains.add(gain);
    }
    expect(gains.size).toBe(12);
  });

  it('has the noise of the sheet: 15 microg in the square root of a hertz', () => {
    const one = element(bench(0));
    one.configure(SETTINGS, 0);
    const values = Array.from({ length: 4000 }, (_, k) => gFromCounts(one.read(1 + k / 5).yCounts));
    const differences = values.slice(1).map((value, k) => value - values[k]!);
    const square = differences.reduce((sum, d) => sum + d * d, 0) / differences.length / 2;
    // Second-order filter of 10.4 Hz passes pi/(2 sqrt2) x 10.4 Hz = 11.6 Hz of it; 0.2 s apart
    // neighbours are free of each other. One count is 15 microg, rounding adds 15/sqrt12.
    const expected = 15e-6 ** 2 * 11.6 + 15e-6 ** 2 / 12;
    expect(Math.sqrt(square / expected)).toBeGreaterThan(0.85);
    expect(Math.sqrt(square / expected)).toBeLessThan(1.15);
  });

  it('gives the same tick the same counts to every reader', () => {
    const often = element(bench(0.02));
    const seldom = element(bench(0.02));
    often.configure(SETTINGS, 0);
    seldom.configure(SETTINGS, 0);
    const known = new Map<number, number>();
    for (let k = 0; k < 20_000; k++) {
      const { tick, yCounts } = often.read(k * 0.001);
      known.set(tick, yCounts);
    }
    for (let k = 0; k < 180; k++) {
      const { tick, yCounts } = seldom.read(k * 0.11);
      expect(known.get(tick)).toBe(yCounts);
    }
    // A look back of up to a second.
    const { tick, yCounts } = often.read(19.1);
    expect(known.get(tick)).toBe(yCounts);
  });

  it('does not care when it was configured, once its filter has settled', () => {
    const early = element(bench(0.02));
    const late = element(bench(0.02));
    early.configure(SETTINGS, 0);
    late.configure(SETTINGS, 3.21);
    for (let k = 0; k < 200; k++) {
      expect(late.read(5 + k * 0.02)).toEqual(early.read(5 + k * 0.02));
    }
  });

  it('counts ticks on its own clock, within a hundredth of the rate asked', () => {
    const one = element(bench(0));
    one.configure(SETTINGS, 0);
    const first = one.read(1).tick;
    const rateHz = (one.read(101).tick - first) / 100;
    expect(Math.abs(rateHz / 104 - 1)).toBeLessThan(0.01);
    expect(rateHz).not.toBe(104);
  });

  it('stops at the ends of its range and says so', () => {
    for (const [yG, counts] of [
      [0.9, 32767],
      [-0.9, -32768],
    ] as const) {
      const one = element(bench(yG));
      one.configure(SETTINGS, 0);
      expect(one.read(1)).toMatchObject({ yCounts: counts, saturated: true });
    }
    const level = element(bench(0));
    level.configure(SETTINGS, 0);
    expect(level.read(1).saturated).toBe(false);
  });

  it('tells its temperature up to an offset', () => {
    const counts = [15, 20].map((temperatureC) => {
      const one = element(bench(0, temperatureC));
      one.configure(SETTINGS, 0);
      return one.read(1).temperatureCounts;
    });
    expect(counts[1]! - counts[0]!).toBe(5 * 256);
    expect(Math.abs(temperatureCFromCounts(counts[0]!) - 15)).toBeLessThan(15);
  });

  it('refuses to be read before it is configured, and a range it has not', () => {
    const one = element(bench(0));
    expect(() => one.read(1)).toThrow(RangeError);
    expect(() => one.configure({ ...SETTINGS, rangeG: 4 }, 0)).toThrow(RangeError);
  });
});
