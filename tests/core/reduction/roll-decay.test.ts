import { describe, expect, it } from 'vitest';
import {
  amplitudeAtStartDeg,
  amplitudeDeg,
  dampingRatioOf,
  decayPerSAt,
  heelDegAt,
  type RollDecay,
} from '#core/reduction/roll-decay.ts';
import { releasedRoll } from '../../support/free-roll.ts';

const omegaNatural = (2 * Math.PI) / 5;
const linear: RollDecay = {
  offsetDeg: 0,
  cosineDeg: 2,
  sineDeg: 0,
  omegaPerS: omegaNatural * Math.sqrt(1 - 0.04 ** 2),
  decayPerS: 0.04 * omegaNatural,
  quadraticPerDegS: 0,
};

describe('a free roll as numbers', () => {
  it('has the successive extremes of a linear decay', () => {
    // period 5 s, damping ratio 0.04, let go at 2 degrees: x_k = 2 (-1)^k exp(-k pi z / sqrt(1 - z^2)),
    // calculated; the damped period is 5 / sqrt(1 - z^2) = 5.004004806 s
    const halfS = Math.PI / linear.omegaPerS;
    expect(2 * halfS).toBeCloseTo(5.004004806, 8);
    const extremes = [2, -1.76364523, 1.55522226, -1.37143016, 1.20935813];
    extremes.forEach((extreme, k) => {
      expect(amplitudeDeg(linear, k * halfS)).toBeCloseTo(Math.abs(extreme), 7);
      expect(heelDegAt(linear, k * halfS)).toBeCloseTo(extreme, 7);
    });
    expect(2 * Math.log(amplitudeDeg(linear, 0) / amplitudeDeg(linear, halfS))).toBeCloseTo(
      0.251528716,
      8,
    );
    expect(dampingRatioOf(linear.decayPerS, linear.omegaPerS)).toBeCloseTo(0.04, 12);
  });

  it('loses a A + b A^2 in a half cycle, as Froude writes it', () => {
    const both: RollDecay = { ...linear, decayPerS: 0.01, quadraticPerDegS: 0.004 };
    const halfS = Math.PI / both.omegaPerS;
    // dA/dt = -(decay A + quadratic A^2), by small steps
    let amplitude = 2;
    for (let k = 0; k < 10_000; k++) {
      const middle = amplitude - (halfS / 20_000) * (0.01 * amplitude + 0.004 * amplitude ** 2);
      amplitude -= (halfS / 10_000) * (0.01 * middle + 0.004 * middle ** 2);
    }
    expect(amplitudeDeg(both, halfS)).toBeCloseTo(amplitude, 8);
    expect(amplitudeAtStartDeg(both)).toBe(2);
    expect(decayPerSAt(both, 2)).toBeCloseTo(0.018, 12);
    const undamped = { ...linear, decayPerS: 0 };
    expect(amplitudeDeg(undamped, 30)).toBe(2);
  });

  it('follows the equation of motion with quadratic damping, b being 4/3 of its coefficient', () => {
    // averaging over a cycle (Froude; calculated): decrement 4/3 d A^2 with d per radian
    const quadraticPerDeg = 0.0008;
    const { timeS, heelDeg } = releasedRoll({
      lengthS: 40,
      dampingRatio: 0.02,
      quadraticPerDeg,
      offsetDeg: 0,
      releases: [{ atS: 0, heelDeg: 5 }],
    });
    const omegaPerS = omegaNatural;
    const roll: RollDecay = {
      ...linear,
      cosineDeg: 5,
      omegaPerS,
      decayPerS: 0.02 * omegaPerS,
      quadraticPerDegS: (((4 / 3) * quadraticPerDeg) / Math.PI) * omegaPerS,
    };
    const ends = timeS.flatMap((time, k) =>
      k > 0 &&
      k + 1 < timeS.length &&
      heelDeg[k]! > heelDeg[k - 1]! &&
      heelDeg[k]! > heelDeg[k + 1]!
        ? [[time, heelDeg[k]!] as const]
        : [],
    );
    expect(ends.length).toBeGreaterThan(5);
    for (const [time, heel] of ends) {
      expect(amplitudeDeg(roll, time) / heel).toBeCloseTo(1, 1.7);
    }
  });
});
