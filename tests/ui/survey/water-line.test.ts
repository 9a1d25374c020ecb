import { describe, expect, it } from 'vitest';
import { liesBy, meanDensity, waterLineOf } from '#ui/survey/water-line.ts';
import { entered, surveyOf } from '../../support/entries.ts';

const VESSEL = entered('vessel', 'vessel', {
  lengthM: 15,
  readingUncertaintyM: 0.003,
  hydrometerUncertaintyKgM3: 0.5,
  freeSurfaceUncertaintyShare: 0.05,
});
/** Water at 1.45 m, 20 mm in a metre by the stern; readings a millimetre or two about it. */
const freeboards = (misreadM = 0) =>
  [1, 4, 7.5, 11, 14].flatMap((xM, k) =>
    (['port', 'starboard'] as const).map((side, s) => {
      const water = 1.45 - 0.02 * (xM - 7.5) + 0.0015 * Math.sin(7 * (2 * k + s));
      const off = side === 'port' && k === 3 ? misreadM : 0;
      return entered('freeboard', `${side} ${k}`, {
        side,
        xM,
        halfBreadthM: 2.3,
        heightM: 2.5,
        freeboardM: 2.5 - water + off,
      });
    }),
  );

describe('the waterline of the rows as they stand', () => {
  it('gives draught, trim and list with their half widths', () => {
    const { fit, advice } = waterLineOf(surveyOf([VESSEL, ...freeboards()]));
    const lies = liesBy(fit!, (one) => 2 * one);
    expect(lies.draughtM.value).toBeCloseTo(1.45, 2);
    expect(lies.trimM.value).toBeCloseTo(0.3, 2);
    expect(Math.abs(lies.listDeg.value)).toBeLessThan(lies.listDeg.half);
    expect(lies.sagM).not.toBeNull();
    expect(advice.map(({ code }) => code)).not.toContain('level-off-plane');
  });

  it('names the point that was misread', () => {
    const { advice } = waterLineOf(surveyOf([VESSEL, ...freeboards(0.04)]));
    expect(advice.find(({ code }) => code === 'level-off-plane')?.where).toBe('port 3');
  });

  it('says why there is none, and nothing before her length is known', () => {
    const [first] = freeboards();
    expect(waterLineOf(surveyOf([VESSEL, first!])).refused?.code).toBe('input-too-few');
    expect(waterLineOf(surveyOf(freeboards()))).toMatchObject({ fit: null, refused: null });
  });
});

it('the mean density is of the samples before the first shift', () => {
  const sample = (key: string, densityKgM3: number, occasion: 'before' | 'closing' = 'before') =>
    entered('water', key, { densityKgM3, temperatureC: null }, { occasion });
  const survey = surveyOf([sample('a', 1024), sample('b', 1026), sample('a', 1000, 'closing')]);
  expect(meanDensity({ survey })).toBe(1025);
  expect(meanDensity({ survey: surveyOf([]) })).toBeNull();
});
