import { describe, expect, it } from 'vitest';
import { decayOf, fitDecay } from '#core/reduction/roll-decay-fit.ts';
import { releasedRoll } from '../../support/free-roll.ts';

describe('fit of a free roll', () => {
  it('returns what made a noise-free record, to 1e-6', () => {
    // y = 1.25 + 0.8 e^(-a t) cos(w t + 0.3), t = k/10, k = 0...299, period 5 s, damping ratio 0.03
    const [decay, omega] = [0.037699111843, 1.256071447466];
    const timeS = Array.from({ length: 300 }, (_, k) => k / 10);
    const heelDeg = timeS.map((t) => 1.25 + 0.8 * Math.exp(-decay * t) * Math.cos(omega * t + 0.3));
    expect(heelDeg[0]).toBeCloseTo(2.01426919, 8);
    for (const quadratic of [false, true]) {
      for (const near of [4, 5.2, 6]) {
        const { roll, curve } = fitDecay({ timeS, heelDeg }, near, quadratic);
        expect(roll.offsetDeg).toBeCloseTo(1.25, 6);
        expect(roll.omegaPerS).toBeCloseTo(omega, 6);
        expect(roll.decayPerS).toBeCloseTo(decay, 6);
        expect(Math.atan2(roll.sineDeg, roll.cosineDeg)).toBeCloseTo(0.3, 6);
        expect(roll.quadraticPerDegS).toBeCloseTo(0, 6);
        expect(curve.rest).toBeLessThan(1e-12);
      }
    }
  });

  it('does the same from irregular times with a gap', () => {
    const all = releasedRoll({ lengthS: 40, rateHz: 20, releases: [{ atS: 0, heelDeg: 2 }] });
    const kept = all.timeS.flatMap((time, k) =>
      (k * 7919) % 5 < 2 || (time > 12 && time < 16) ? [] : [k],
    );
    const roll = fitDecay(
      { timeS: kept.map((k) => all.timeS[k]!), heelDeg: kept.map((k) => all.heelDeg[k]!) },
      5,
      false,
    ).roll;
    expect((2 * Math.PI) / roll.omegaPerS).toBeCloseTo(5.004004806, 6);
    expect(roll.offsetDeg).toBeCloseTo(0.3, 6);
  });

  it('tells both dampings of a roll that has both', () => {
    const { timeS, heelDeg } = releasedRoll({
      lengthS: 60,
      dampingRatio: 0.02,
      quadraticPerDeg: 0.0008,
      releases: [{ atS: 0, heelDeg: 5 }],
    });
    const { roll } = fitDecay({ timeS, heelDeg }, 5, true);
    const halfS = Math.PI / roll.omegaPerS;
    // a = pi z, b = 4/3 d, both to the order averaging is good for
    expect(roll.decayPerS * halfS).toBeCloseTo(Math.PI * 0.02, 3);
    expect((roll.quadraticPerDegS * halfS) / ((4 / 3) * 0.0008)).toBeCloseTo(1, 1);
  });

  it('refuses too few samples', () => {
    expect(() => fitDecay({ timeS: [0, 1, 2], heelDeg: [0, 1, 0] }, 3, false)).toThrow(/12/);
    expect(decayOf([1, 2, 3, 4, 5])).toMatchObject({ offsetDeg: 1, quadraticPerDegS: 0 });
  });
});
