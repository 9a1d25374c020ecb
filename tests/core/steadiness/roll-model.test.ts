import { describe, expect, it } from 'vitest';
import {
  meanSpreadDeg,
  rollBlockStep,
  rollMeanSpreadDeg,
  rollStep,
  windMeanSpreadDeg,
  windOf,
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

  it("keeps the stationary variance of roll: A A' + Q is the same again", () => {
    const driven = { periodS: 6, dampingRatio: 0.07, rollDeg: 0.3 };
    for (const { a11, a12, a21, a22, q11, q12, q22 } of [
      rollStep(driven, 0.4),
      rollBlockStep(driven),
    ]) {
      expect(0.09 * (a11 ** 2 + a12 ** 2) + q11).toBeCloseTo(0.09, 12);
      expect(0.09 * (a21 ** 2 + a22 ** 2) + q22).toBeCloseTo(0.09, 12);
      expect(0.09 * (a11 * a21 + a12 * a22) + q12).toBeCloseTo(0, 12);
    }
  });

  it('knows the mean of a block: what a free roll gives, and the variance of a driven one', () => {
    const fine = rollStep(still, 0.1);
    const { m1, m2 } = rollBlockStep(still);
    let [heel, rate, sum] = [0.7, -0.4, 0];
    for (let k = 0; k < 4; k++) {
      [heel, rate] = [fine.a11 * heel + fine.a12 * rate, fine.a21 * heel + fine.a22 * rate];
      sum += heel / 4;
    }
    expect(m1 * 0.7 + m2 * -0.4).toBeCloseTo(sum, 12);
    // Variance of the mean of four samples by their correlation, the closed form of the oscillator.
    const driven = { periodS: 3, dampingRatio: 0.1, rollDeg: 0.5 };
    const w = (2 * Math.PI) / 3;
    const root = Math.sqrt(1 - 0.01);
    const correlation = (lagS: number) =>
      Math.exp(-0.1 * w * lagS) *
      (Math.cos(root * w * lagS) + (0.1 / root) * Math.sin(root * w * lagS));
    let variance = 0;
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j < 4; j++) variance += (0.25 / 16) * correlation(Math.abs(i - j) * 0.1);
    }
    const step = rollBlockStep(driven);
    expect(0.25 * (step.m1 ** 2 + step.m2 ** 2) + step.qm).toBeCloseTo(variance, 12);
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

  it('knows the spread of the mean of a random heel, against a sum over its correlation', () => {
    for (const windowS of [5, 60, 300]) {
      const n = 1500;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        const lagS = ((i + 0.5) / n) * windowS;
        sum += (2 * (1 - lagS / windowS) * Math.exp(-lagS / 30)) / n;
      }
      expect(windMeanSpreadDeg(0.02, 30, windowS)).toBeCloseTo(0.02 * Math.sqrt(sum), 6);
    }
  });

  it('spreads a wind over its paces by its colour', () => {
    expect(windOf(0.01, 0)).toEqual([0.01, 0.01, 0.01]);
    const [quick, middle, slow] = windOf(0.01, 1 / 3);
    expect(slow / middle).toBeCloseTo(5 ** (1 / 3), 12);
    expect(middle / quick).toBeCloseTo(5 ** (1 / 3), 12);
  });

  it('is worth less with more of anything, more with time', () => {
    const model = {
      periodS: 5,
      dampingRatio: 0.05,
      rollDeg: 0.1,
      noiseDeg: 0.01,
      windDeg: [0.01, 0.01, 0.01] as const,
    };
    const at60 = meanSpreadDeg(model, 60);
    expect(meanSpreadDeg(model, 120)).toBeLessThan(at60);
    for (const part of ['rollDeg', 'noiseDeg'] as const) {
      expect(meanSpreadDeg({ ...model, [part]: 2 * model[part] }, 60)).toBeGreaterThan(at60);
    }
    for (const windDeg of [[0.02, 0.01, 0.01] as const, [0.01, 0.01, 0.02] as const]) {
      expect(meanSpreadDeg({ ...model, windDeg }, 60)).toBeGreaterThan(at60);
    }
  });
});
