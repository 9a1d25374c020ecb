import { describe, expect, it } from 'vitest';
import {
  meanSpreadDeg,
  rollMeanSpreadDeg,
  rollStep,
  smoothMeanSpreadDeg,
  smoothStep,
} from '#core/steadiness/roll-model.ts';

const still = { periodS: 5, dampingRatio: 0.04, rollDeg: 0 };

/** Heel and rate over w after steps of the free oscillator. */
function letGo(heelDeg: number, stepS: number, steps: number): number[] {
  const { a11, a12, a21, a22 } = rollStep(still, stepS);
  const heels = [heelDeg];
  let rate = 0;
  let heel = heelDeg;
  for (let k = 0; k < steps; k++) {
    [heel, rate] = [a11 * heel + a12 * rate, a21 * heel + a22 * rate];
    heels.push(heel);
  }
  return heels;
}

describe('roll model', () => {
  it('lets a free roll go through the extremes of the closed form', () => {
    // Period 5 s, damping 0.04, let go at 2.0 degree: damped period 5.004004806 s, logarithmic
    // decrement 0.251528716; extremes computed from the closed form of the damped oscillator.
    const half = 5.004004806 / 2;
    expect(letGo(2, half, 4)).toEqual(
      [2, -1.76364523, 1.55522226, -1.37143016, 1.20935813].map((value) =>
        expect.closeTo(value, 7),
      ),
    );
    const heels = letGo(2, 5.004004806, 1);
    expect(Math.log(heels[0]! / heels[1]!)).toBeCloseTo(0.251528716, 8);
  });

  it('takes the same way in one step as in many', () => {
    const few = letGo(1, 0.4, 30);
    const many = letGo(1, 0.1, 120);
    few.forEach((heel, k) => {
      expect(many[4 * k]).toBeCloseTo(heel, 12);
    });
  });

  it("keeps the stationary variance of roll and of smooth heel: A A' + Q is the same again", () => {
    for (const step of [
      rollStep({ periodS: 6, dampingRatio: 0.07, rollDeg: 0.3 }, 0.4),
      smoothStep(0.3, 20, 0.4),
    ]) {
      const { a11, a12, a21, a22, q11, q12, q22 } = step;
      expect(0.09 * (a11 ** 2 + a12 ** 2) + q11).toBeCloseTo(0.09, 12);
      expect(0.09 * (a21 ** 2 + a22 ** 2) + q22).toBeCloseTo(0.09, 12);
      expect(0.09 * (a11 * a21 + a12 * a22) + q12).toBeCloseTo(0, 12);
    }
  });

  it('knows the spread of the plain mean of a driven roll', () => {
    // sd sqrt(4 damping/(w W) + 2/(w W)^2), roll sd 0.3, period 5 s, damping 0.05: the plain
    // mean's .0303 .0242 .0164 .0113 at 20 30 60 120 s include noise of .02 at 10 Hz.
    const roll = { periodS: 5, dampingRatio: 0.05, rollDeg: 0.3 };
    const spreads = [20, 30, 60, 120].map((windowS) =>
      Math.hypot(rollMeanSpreadDeg(roll, windowS), 0.02 / Math.sqrt(10 * windowS)),
    );
    [0.0303, 0.0242, 0.0164, 0.0113].forEach((published, k) => {
      expect(Math.abs(spreads[k]! / published - 1)).toBeLessThan(0.05);
    });
  });

  it('knows the spread of the mean of a smooth heel, against a sum over its correlation', () => {
    const correlation = (x: number) => (1 + x) * Math.exp(-x);
    for (const windowS of [5, 60, 300]) {
      const n = 1500;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        const lagS = ((i + 0.5) / n) * windowS;
        sum += (2 * (1 - lagS / windowS) * correlation((2 * lagS) / 30)) / n;
      }
      expect(smoothMeanSpreadDeg(0.02, 30, windowS)).toBeCloseTo(0.02 * Math.sqrt(sum), 7);
    }
  });

  it('is worth less with more of anything, more with time', () => {
    const model = {
      periodS: 5,
      dampingRatio: 0.05,
      rollDeg: 0.1,
      noiseDeg: 0.01,
      slowDeg: 0.01,
      quickDeg: 0.01,
    };
    const at60 = meanSpreadDeg(model, 60);
    expect(meanSpreadDeg(model, 120)).toBeLessThan(at60);
    for (const part of ['rollDeg', 'noiseDeg', 'slowDeg', 'quickDeg'] as const) {
      expect(meanSpreadDeg({ ...model, [part]: 2 * model[part] }, 60)).toBeGreaterThan(at60);
    }
  });
});
