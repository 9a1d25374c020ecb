import { describe, expect, it } from 'vitest';
import {
  wakeArrivalFrequencyHz,
  wakeArrivalS,
  wakeFrequencyRiseHzS,
  wakeSlopeRad,
  waveSlopeShare,
} from '#device/emulated/quay/wake.ts';
import { GRAVITY_M_S2 } from '#device/emulated/vessel.ts';

const boat = { speedMS: 5, distanceM: 100, slopeRad: 0.01 };

describe('the wake of a passing boat', () => {
  it('comes when and as Kelvin says, for 5 m/s at 100 m', () => {
    expect(wakeArrivalS(boat)).toBeCloseTo(56.6, 1);
    // The figures are for 9.81 m/s2.
    const toStandard = 9.81 / GRAVITY_M_S2;
    expect(wakeArrivalFrequencyHz(boat) * toStandard).toBeCloseTo(0.382, 3);
    expect(wakeFrequencyRiseHzS(boat) * toStandard).toBeCloseTo(0.0078, 4);
  });

  it('is nothing before it arrives, longest waves first, then ever shorter ones', () => {
    const upCrossings: number[] = [];
    let before = 0;
    for (let timeS = 0; timeS < 90; timeS += 0.005) {
      const slope = wakeSlopeRad(boat, timeS);
      if (timeS < wakeArrivalS(boat)) expect(slope).toBe(0);
      if (before < 0 && slope >= 0) upCrossings.push(timeS);
      before = slope;
    }
    const frequencies = upCrossings.slice(1).map((one, k) => 1 / (one - upCrossings[k]!));
    const middles = upCrossings.slice(1).map((one, k) => (one + upCrossings[k]!) / 2);
    frequencies.forEach((frequencyHz, k) => {
      const expected = 0.3825 + 0.00781 * (middles[k]! - 56.57);
      expect(Math.abs(frequencyHz - expected)).toBeLessThan(0.004);
    });
    expect(frequencies.length).toBeGreaterThan(10);
  });

  it('turns a beamy vessel the less the shorter the wave', () => {
    const shares = [0.05, 0.2, 0.35, 0.5].map((frequencyHz) => waveSlopeShare(5.6, frequencyHz));
    expect(shares[0]).toBeGreaterThan(0.99);
    expect([...shares].sort((a, b) => b - a)).toEqual(shares);
    // As long as she is broad, a wave turns her not at all: g / (2 pi f2) = 5.6 m.
    expect(waveSlopeShare(5.6, Math.sqrt(9.815 / (2 * Math.PI * 5.6)))).toBeCloseTo(0, 12);
  });
});
