import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Certificate, Mounting } from '#core/sample/certificate.ts';
import {
  heelDegFromFootDifference,
  heelDegFromLevelDifference,
  heelDegFromSine,
  indicationOfHeel,
} from '#core/sample/indicated-heel.ts';

const certificateOf = (instrument: string, zero: number, scale: number): Certificate => ({
  number: 'T-1',
  instrument,
  method: 'for a test',
  madeBy: 'nobody',
  date: '2026-11-24',
  zero,
  scale,
  scaleUncertainty: 0.0015,
  leftOver: 0,
  temperatureC: null,
  points: [],
});
const mountingOf = (instrument: string, change: Partial<Mounting> = {}): Mounting => ({
  instrument,
  label: instrument,
  kind: instrument === 'tube' ? 'water-tube' : 'inclinometer',
  sign: 1,
  spanM: instrument === 'tube' ? 8 : null,
  heightOverRollAxisM: 0,
  settlingS: 0,
  ...change,
});

describe('heel from one indication', () => {
  it('is the arc sine of an inclinometer, starboard down by the sign of its mounting', () => {
    const sine = Math.sin((3 * Math.PI) / 180);
    const at = (sign: 1 | -1) =>
      heelDegFromSine(sine, { mounting: mountingOf('aft', { sign }), certificate: null });
    expect(at(1)).toBeCloseTo(3, 12);
    expect(at(-1)).toBeCloseTo(-3, 12);
  });

  it('is the arc tangent of the level difference over the span', () => {
    // A tube 8 m wide at 2 degrees: 279 mm.
    const differenceMm = 8000 * Math.tan((2 * Math.PI) / 180);
    expect(differenceMm).toBeCloseTo(279.4, 1);
    const of = { mounting: mountingOf('tube'), certificate: null };
    expect(heelDegFromLevelDifference(differenceMm, of)).toBeCloseTo(2, 12);
    const noSpan = { mounting: mountingOf('tube', { spanM: null }), certificate: null };
    expect(() => heelDegFromLevelDifference(1, noSpan)).toThrow(RangeError);
  });

  it('is corrected in the unit of the fit', () => {
    const certificate = certificateOf('aft', 0.001, 1.02);
    const indicated = (Math.sin((2 * Math.PI) / 180) - 0.001) / 1.02;
    expect(heelDegFromSine(indicated, { mounting: mountingOf('aft'), certificate })).toBeCloseTo(
      2,
      12,
    );
  });

  it('is nothing beyond the vertical', () => {
    expect(heelDegFromSine(1.01, { mounting: mountingOf('aft'), certificate: null })).toBeNull();
  });

  it('mirrors when the indication mirrors', () => {
    const of = { mounting: mountingOf('aft'), certificate: null };
    fc.assert(
      fc.property(fc.double({ min: -1, max: 1, noNaN: true }), (sine) => {
        expect(heelDegFromSine(-sine, of)).toBeCloseTo(-heelDegFromSine(sine, of)!, 12);
      }),
    );
  });
});

it('goes back to what was indicated, by sine, by tangent, and under any certificate', () => {
  const back = (kind: 'inclinometer' | 'water-tube', senses: 'level' | 'pressure') => {
    const mounting = { ...mountingOf(kind === 'water-tube' ? 'tube' : 'aft'), sign: -1 as const };
    const of = { mounting, certificate: certificateOf('aft', 0.002, 1.03) };
    const indicated = kind === 'water-tube' ? 120 : 0.03;
    const heel =
      kind === 'inclinometer'
        ? heelDegFromSine(indicated, of)!
        : senses === 'level'
          ? heelDegFromLevelDifference(indicated, of)
          : heelDegFromFootDifference(indicated, of)!;
    expect(indicationOfHeel(heel, of, senses)).toBeCloseTo(indicated, 9);
  };
  back('inclinometer', 'level');
  back('water-tube', 'level');
  back('water-tube', 'pressure');
});
