import { describe, expect, it } from 'vitest';
import { integrateRungeKutta } from '#device/emulated/runge-kutta.ts';

describe('the integration step', () => {
  it('is of fourth order: halving the step divides the error by sixteen', () => {
    const errorWith = (steps: number): number => {
      let values: [number, number] = [1, 0];
      for (let k = 0; k < steps; k++) {
        values = integrateRungeKutta(values, 1 / steps, (place, speed) => [speed, -place]);
      }
      return Math.abs(values[0] - Math.cos(1));
    };
    const ratio = errorWith(10) / errorWith(20);
    expect(ratio).toBeGreaterThan(13);
    expect(ratio).toBeLessThan(19);
  });

  it('tells the slopes how far into the step they are', () => {
    const shares: number[] = [];
    const [sum] = integrateRungeKutta([0, 0], 2, (_first, _second, share) => {
      shares.push(share);
      return [share, 0];
    });
    expect(shares).toEqual([0, 0.5, 0.5, 1]);
    expect(sum).toBeCloseTo(1, 14);
  });
});
