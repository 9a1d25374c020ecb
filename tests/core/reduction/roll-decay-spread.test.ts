import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { studentTQuantile } from '#core/numerics/student-t.ts';
import { fitDecay } from '#core/reduction/roll-decay-fit.ts';
import { spreadOfDecay } from '#core/reduction/roll-decay-spread.ts';
import { median } from '#core/signal/robust.ts';
import { releasedRoll } from '../../support/free-roll.ts';

describe('spread of a fitted free roll', () => {
  it("reaches Fisher's bound of a damped sinusoid in noise, and states it", () => {
    // 10 Hz, 60 s, amplitude 1, noise 0.01, period 5 s, damping ratio 0.03, phase 0.3: the bound is
    // the inverse of J'J / noise^2, calculated: offset 4.092611e-4, omega 1.053832e-4 and decay
    // 1.063839e-4 per second
    const bound = [4.092611e-4, 1.053832e-4, 1.063839e-4];
    const [omega, decay] = [1.256071447466, 0.037699111843];
    const timeS = Array.from({ length: 600 }, (_, k) => k / 10);
    const random = createRandom(11, 'fisher');
    const rounds = 200;
    const errors = [0, 0, 0];
    const stated: number[][] = [[], [], []];
    for (let round = 0; round < rounds; round++) {
      const heelDeg = timeS.map(
        (t) => 2 + Math.exp(-decay * t) * Math.cos(omega * t + 0.3) + 0.01 * random.normal(),
      );
      const fit = fitDecay({ timeS, heelDeg }, 5, false);
      const { covariance } = spreadOfDecay({ timeS, heelDeg }, fit);
      const truth = [2, omega, decay];
      [0, 3, 4].forEach((number, k) => {
        errors[k]! += (fit.curve.numbers[number]! - truth[k]!) ** 2 / rounds;
        stated[k]!.push(Math.sqrt(covariance[number]![number]!));
      });
    }
    bound.forEach((least, k) => {
      // 200 rounds: a standard deviation is known to 5 %
      expect(Math.sqrt(errors[k]!) / least).toBeGreaterThan(0.88);
      expect(Math.sqrt(errors[k]!) / least).toBeLessThan(1.12);
      expect(median(stated[k]!) / least).toBeGreaterThan(0.95);
      expect(median(stated[k]!) / least).toBeLessThan(1.05);
    });
  });

  it('finds the driven roll and covers the period beside it', () => {
    const rounds = 120;
    let held = 0;
    let driven = 0;
    for (let seed = 1; seed <= rounds; seed++) {
      const record = releasedRoll({
        lengthS: 32,
        drivenDeg: 0.06,
        noiseDeg: 0.005,
        seed,
        releases: [{ atS: 0, heelDeg: 2.5 }],
      });
      const fit = fitDecay(record, 5, false);
      const spread = spreadOfDecay(record, fit);
      driven += spread.drivenDeg ** 2 / rounds;
      const half =
        studentTQuantile(0.975, spread.degreesOfFreedom) * Math.sqrt(spread.covariance[3]![3]!);
      if (Math.abs(fit.roll.omegaPerS - (2 * Math.PI) / 5.004004806) < half) held += 1;
    }
    expect(Math.sqrt(driven)).toBeGreaterThan(0.045);
    expect(Math.sqrt(driven)).toBeLessThan(0.075);
    expect(held / rounds).toBeGreaterThan(0.89);
  });
});
