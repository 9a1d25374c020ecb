import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MARRAM_ROLL, marramReality } from '#device/emulated/marram.ts';
import {
  GRAVITY_M_S2,
  gmM,
  heelingLeverM,
  naturalPeriodS,
  type Righting,
  type RollState,
  restingHeelRad,
  rightingKnM,
  rollAfterStep,
  type VesselForm,
} from '#device/emulated/vessel.ts';

const DEGREE = Math.PI / 180;

/** Wall-sided: KN = (KM + BM/2 tan2) sin, c2 half of BM. */
const wallSided = (bmM: number): Righting => ({
  excessM: (heelRad) => (bmM / 2) * Math.tan(heelRad) ** 2,
  trimRad: () => 0,
  metacentreMovementM: bmM / 2,
});

/** Box 20 x 6 x 1.5 m, wall-sided up to 26.57 degrees: KB 0.75, BM 2 (worked in closed form). */
const box: VesselForm = {
  displacementT: 184.5,
  kmM: 2.75,
  righting: wallSided(2),
  kgM: 2.2,
  tcgM: 0.004,
};
const at = (transverseTM: number, verticalTM = 0) => ({ transverseTM, verticalTM });

describe('righting moment at finite heel', () => {
  it('is that of the box in closed form', () => {
    // GZ at KG 2.2, from KN = BM sin + (KB + BM/2 tan2) sin.
    const levers: [number, number][] = [
      [5, 0.048602772],
      [10, 0.100905429],
      [15, 0.160932846],
      [20, 0.233419969],
      [25, 0.324335356],
    ];
    for (const [heelDeg, leverM] of levers) {
      const heelRad = heelDeg * DEGREE;
      expect(rightingKnM(box, heelRad) - 2.2 * Math.sin(heelRad)).toBeCloseTo(leverM, 9);
    }
  });

  it('lets the box rest where a whole test on her was worked out', () => {
    const states: [number, number][] = [
      [0, 0.416649172],
      [3, 2.104469234],
      [6, 3.769239231],
      [-3, -1.275830277],
      [-6, -2.954143277],
    ];
    for (const [momentTM, heelDeg] of states) {
      expect(restingHeelRad(box, at(momentTM)) / DEGREE).toBeCloseTo(heelDeg, 9);
    }
    expect(restingHeelRad(box, at(3, 1.2)) / DEGREE).toBeCloseTo(2.129442205, 9);
    expect(restingHeelRad(box, at(6, 2.4)) / DEGREE).toBeCloseTo(3.85806778, 8);
  });

  it('knows how the metacentre moves', () => {
    const { form } = marramReality(1);
    const apparent = (heelRad: number) =>
      heelingLeverM({ ...form, tcgM: 0 }, at(0), heelRad) / -Math.cos(heelRad) / Math.tan(heelRad);
    const heelRad = 2 * DEGREE;
    const tangent2 = Math.tan(heelRad) ** 2;
    // The next term is of the order of tangent to the fourth: 1.5e-6.
    expect(apparent(heelRad) - gmM(form)).toBeCloseTo(
      form.righting.metacentreMovementM * tangent2,
      5,
    );
  });

  it('mirrors: all moments to the other side, heel to the other side', () => {
    const { form } = marramReality(3);
    fc.assert(
      fc.property(
        fc.double({ min: -4, max: 4, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (transverseTM, verticalTM) => {
          const mirrored = { ...form, tcgM: -form.tcgM };
          expect(restingHeelRad(mirrored, at(-transverseTM, verticalTM))).toBeCloseTo(
            -restingHeelRad(form, at(transverseTM, verticalTM)),
            14,
          );
        },
      ),
    );
  });

  it('refuses a vessel that does not rest', () => {
    expect(() => restingHeelRad({ ...box, kgM: 6 }, at(0))).toThrow(RangeError);
  });
});

describe('roll', () => {
  const frequency = (2 * Math.PI) / 5;
  /** A sphere-like form whose restoring lever is GM sin(heel), and a period of 5 s. */
  const form: VesselForm = {
    displacementT: 50,
    kmM: 2.5,
    righting: wallSided(0),
    kgM: 1.5,
    tcgM: 0,
  };
  const roll = {
    gyrationM: Math.sqrt(GRAVITY_M_S2) / frequency,
    dampingRatio: 0.04,
    quadraticDamping: 0,
  };
  const still = { transverseTM: 0, verticalTM: 0, outsideTM: 0 };
  const stepS = 0.02;
  const after = (state: RollState, load = still) =>
    rollAfterStep(form, roll, state, { before: load, after: load }, stepS);

  it('swings freely as worked out: period 5 s, damping 0.04 of critical', () => {
    expect(naturalPeriodS(form, roll)).toBeCloseTo(5, 12);
    // A hundredth of 2 degrees, so that the sine is straight to 2e-8.
    const scale = DEGREE / 100;
    let state: RollState = { heelRad: 2 * scale, rateRadS: 0 };
    const extremes: { heel: number; timeS: number }[] = [];
    for (let step = 1; step * stepS < 11; step++) {
      const next = after(state);
      if (Math.sign(next.rateRadS) !== Math.sign(state.rateRadS) && step > 1) {
        const share = state.rateRadS / (state.rateRadS - next.rateRadS);
        const heelAtTurn = state.heelRad + (state.rateRadS * share * stepS) / 2;
        extremes.push({ heel: heelAtTurn / scale, timeS: (step - 1 + share) * stepS });
      }
      state = next;
    }
    const expected = [-1.76364523, 1.55522226, -1.37143016, 1.20935813];
    expected.forEach((heel, k) => {
      expect(extremes[k]!.heel).toBeCloseTo(heel, 5);
      expect(extremes[k]!.timeS).toBeCloseTo(((k + 1) * 5.004004806) / 2, 4);
    });
  });

  it('loses by quadratic damping what Froude says: 4/3 of the factor times amplitude squared', () => {
    const quadraticDamping = 0.6;
    const free = { ...roll, dampingRatio: 0, quadraticDamping };
    const amplitude = 0.02;
    let state: RollState = { heelRad: amplitude, rateRadS: 0 };
    for (let step = 0; step * stepS < 2.5; step++) {
      state = rollAfterStep(form, free, state, { before: still, after: still }, stepS);
    }
    const lost = amplitude - Math.abs(state.heelRad);
    const froude = (4 / 3) * quadraticDamping * amplitude ** 2;
    expect(lost / froude).toBeGreaterThan(0.95);
    expect(lost / froude).toBeLessThan(1.05);
  });

  it('comes to rest where the exact equilibrium is', () => {
    const load = { transverseTM: 2.1, verticalTM: 0.3, outsideTM: 0 };
    let state: RollState = { heelRad: 0, rateRadS: 0 };
    for (let step = 0; step * stepS < 400; step++) state = after(state, load);
    expect(state.heelRad).toBeCloseTo(restingHeelRad(form, load), 10);
  });

  it('mirrors', () => {
    const load = { transverseTM: 1, verticalTM: 0.2, outsideTM: 0.4 };
    const mirrored = { transverseTM: -1, verticalTM: 0.2, outsideTM: -0.4 };
    const state = { heelRad: 0.02, rateRadS: -0.01 };
    const one = after(state, load);
    const other = after({ heelRad: -0.02, rateRadS: 0.01 }, mirrored);
    expect(other.heelRad).toBeCloseTo(-one.heelRad, 15);
    expect(other.rateRadS).toBeCloseTo(-one.rateRadS, 15);
  });

  it('gives Marram the period of her drawing, about 4.7 s', () => {
    const periodS = naturalPeriodS(marramReality(1).form, MARRAM_ROLL);
    expect(periodS).toBeGreaterThan(4.6);
    expect(periodS).toBeLessThan(4.85);
  });
});
