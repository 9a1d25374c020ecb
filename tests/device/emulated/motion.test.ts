import { describe, expect, it } from 'vitest';
import { MARRAM_ROLL, MARRAM_TUBE, marramReality } from '#device/emulated/marram.ts';
import { apparentHeelRad, Motion, WORLD_STEP_S } from '#device/emulated/motion.ts';
import { GRAVITY_M_S2, naturalPeriodS, restingHeelRad } from '#device/emulated/vessel.ts';

const { form } = marramReality(1);
const still = { transverseTM: 0, verticalTM: 0, outsideTM: 0 };

describe('the motion of the vessel and her tube', () => {
  it('stays at rest when nothing turns her', () => {
    const motion = new Motion(form, () => still);
    const resting = restingHeelRad(form, still);
    const later = motion.at(500);
    expect(later.heelRad).toBeCloseTo(resting, 12);
    expect(later.differenceMm).toBeCloseTo(MARRAM_TUBE.spanM * 1000 * Math.tan(resting), 9);
  });

  it('rings down in her own period after a push', () => {
    const push = (step: number) => ({ ...still, outsideTM: step < 20 ? 1 : 0 });
    const motion = new Motion(form, push);
    const resting = restingHeelRad(form, still);
    const crossings: number[] = [];
    let before = motion.at(1).heelRad - resting;
    for (let timeS = 1; timeS < 30; timeS += 0.001) {
      const now = motion.at(timeS).heelRad - resting;
      if (before < 0 && now >= 0) crossings.push(timeS);
      before = now;
    }
    const periodS = (crossings[4]! - crossings[0]!) / 4;
    const damped = naturalPeriodS(form, MARRAM_ROLL) / Math.sqrt(1 - MARRAM_ROLL.dampingRatio ** 2);
    // Within a thousandth: she is a little softer at finite heel.
    expect(Math.abs(periodS / damped - 1)).toBeLessThan(0.001);
  });

  it('runs smoothly between its steps', () => {
    const motion = new Motion(form, (step) => ({ ...still, outsideTM: Math.sin(step / 30) }));
    let before = motion.at(2).heelRad;
    const rates: number[] = [];
    for (let timeS = 2; timeS < 6; timeS += WORLD_STEP_S / 8) {
      const now = motion.at(timeS).heelRad;
      rates.push(now - before);
      before = now;
    }
    rates.slice(2).forEach((rate, k) => {
      expect(Math.abs(rate - rates[k + 1]!)).toBeLessThan(2e-6);
    });
  });

  it('forgets after five seconds and ends after ten days', () => {
    const motion = new Motion(form, () => still);
    motion.at(20);
    expect(motion.at(15.5).heelRad).toBeDefined();
    expect(() => motion.at(14)).toThrow(RangeError);
    expect(() => motion.at(Number.NaN)).toThrow(RangeError);
    expect(() => motion.at(10 * 86_400)).toThrow(RangeError);
  });

  it('magnifies a harmonic roll by 1 + h omega2 / g', () => {
    // 5 s, per metre: 0.161.
    const omega2 = ((2 * Math.PI) / 5) ** 2;
    expect(apparentHeelRad(0.01, -omega2 * 0.01, 1) / 0.01).toBeCloseTo(
      1 + omega2 / GRAVITY_M_S2,
      12,
    );
    expect(apparentHeelRad(0.01, -omega2 * 0.01, 1) / 0.01).toBeCloseTo(1.161, 3);
  });
});
