import { describe, expect, it } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { agreementOfInstruments } from '#core/reading/agreement.ts';

const HEELS = [0, 1.4, 2.8, 1.4, 0, -1.4, -2.8, -1.4, 0];

describe('agreement of instruments within states', () => {
  it('finds an offset and a scale exactly where nothing else differs', () => {
    const [fore] = agreementOfInstruments([
      { instrument: 'fore', heelDeg: HEELS.map((heel) => 0.03 + 1.002 * heel) },
      { instrument: 'aft', heelDeg: HEELS },
    ]);
    expect(fore!.offsetDeg).toBeCloseTo(0.03, 12);
    expect(fore!.scaleDifference).toBeCloseTo(0.002, 12);
    expect(fore!.scatterDeg).toBeLessThan(1e-12);
    expect(fore).toMatchObject({ states: 9, degreesOfFreedom: 7 });
  });

  it('is blind to what all share: an error of the state changes nothing', () => {
    const random = createRandom(4);
    const shared = HEELS.map(() => random.normal(0.05));
    const own = HEELS.map(() => random.normal(0.002));
    const with_ = (error: readonly number[]) =>
      agreementOfInstruments([
        { instrument: 'fore', heelDeg: HEELS.map((heel, k) => heel + own[k]! + error[k]!) },
        { instrument: 'aft', heelDeg: HEELS.map((heel, k) => heel + error[k]!) },
      ])[0]!;
    const still = with_(HEELS.map(() => 0));
    const moved = with_(shared);
    expect(moved.scatterDeg).toBeCloseTo(still.scatterDeg, 3);
    expect(moved.offsetDeg).toBeCloseTo(still.offsetDeg, 5);
  });

  it('states uncertainties that hold: offset and scale within two of them in about 95 %', () => {
    const random = createRandom(11);
    let inside = 0;
    for (let n = 0; n < 400; n++) {
      const [fore] = agreementOfInstruments([
        { instrument: 'fore', heelDeg: HEELS.map((heel) => 1.001 * heel + random.normal(0.003)) },
        { instrument: 'aft', heelDeg: HEELS },
      ]);
      // Student's t for 7 degrees of freedom, 95 %: 2.365 (any table)
      if (Math.abs(fore!.scaleDifference - 0.001) < 2.365 * fore!.scaleUncertainty) inside += 1;
    }
    expect(inside / 400).toBeGreaterThan(0.92);
    expect(inside / 400).toBeLessThan(0.98);
  });

  it('leaves out states an instrument missed, and an instrument with too few', () => {
    const answer = agreementOfInstruments([
      { instrument: 'fore', heelDeg: HEELS },
      { instrument: 'aft', heelDeg: HEELS.map((heel, k) => (k === 3 ? null : heel + 0.01)) },
      { instrument: 'tube', heelDeg: HEELS.map((heel, k) => (k < 2 ? heel : null)) },
    ]);
    expect(answer.map(({ instrument, states }) => [instrument, states])).toEqual([
      ['fore', 8],
      ['aft', 8],
    ]);
  });

  it('refuses one instrument, unequal columns and what is no number', () => {
    const fore = { instrument: 'fore', heelDeg: HEELS };
    expect(() => agreementOfInstruments([fore])).toThrow(/input-too-few/);
    expect(() => agreementOfInstruments([fore, { instrument: 'aft', heelDeg: [1, 2, 3] }])).toThrow(
      /input-unequal-length/,
    );
    const broken = HEELS.map((heel, k) => (k === 2 ? Number.NaN : heel));
    expect(() => agreementOfInstruments([fore, { instrument: 'aft', heelDeg: broken }])).toThrow(
      /input-not-finite/,
    );
  });
});
