import { describe, expect, it } from 'vitest';
import { levelMmFromVolts } from '#core/part/current-loop-level.ts';
import { createLevelLegs } from '#device/emulated/elements/level-legs.ts';
import type { World } from '#device/emulated/world.ts';

const bench = (port: number, starboard: number): World => ({
  specificForceG: () => ({ xG: 0, yG: 0, zG: 1 }),
  legLevelMm: (_instrument, leg) => (leg === 'port' ? port : starboard),
  temperatureC: () => 20,
});
const legs = (world: World, seed = 1) => createLevelLegs({ world, instrument: 'tube', seed });
const meanMm = (one: ReturnType<typeof legs>, input: number) => {
  let sum = 0;
  for (let k = 0; k < 2000; k++) sum += levelMmFromVolts(one.volts(input, k * 0.04));
  return sum / 2000;
};

describe('the legs of the water tube', () => {
  it('are wired port to input 0 and starboard to input 1', () => {
    const one = legs(bench(300, 700));
    expect(Math.abs(meanMm(one, 0) - 300)).toBeLessThan(15);
    expect(Math.abs(meanMm(one, 1) - 700)).toBeLessThan(20);
    expect(() => one.volts(2, 0)).toThrow(RangeError);
  });

  it('have a scale error within 2 % that the certificate is for', () => {
    for (let seed = 0; seed < 8; seed++) {
      const span = meanMm(legs(bench(800, 0), seed), 0) - meanMm(legs(bench(200, 0), seed), 0);
      expect(Math.abs(span / 600 - 1)).toBeLessThan(0.02);
    }
  });

  it('have a tenth of a millimetre of noise that two readers microseconds apart share', () => {
    const one = legs(bench(500, 500));
    const values = Array.from({ length: 4000 }, (_, k) => levelMmFromVolts(one.volts(0, k * 0.04)));
    const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
    const square = values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / values.length;
    expect(Math.sqrt(square)).toBeGreaterThan(0.09);
    expect(Math.sqrt(square)).toBeLessThan(0.11);
    for (let k = 0; k < 500; k++) {
      const timeS = k * 0.0123;
      const apart =
        levelMmFromVolts(one.volts(0, timeS + 10e-6)) - levelMmFromVolts(one.volts(0, timeS));
      // A tenth of a count of the converter (0.052 mm).
      expect(Math.abs(apart)).toBeLessThan(0.005);
    }
  });
});
