import { describe, expect, it } from 'vitest';
import { headlineGm } from '#core/session/headline.ts';
import { resultOfSession } from '#core/session/result.ts';
import { aDay, DAY_GM, withVoided } from './a-day.ts';

describe('the headline GM alone', () => {
  it('is the headline of the whole result, or why there is none', () => {
    const day = aDay({ stateDeg: 0.002, readingDeg: 0.002 });
    expect(headlineGm(day).gmFluidM).toEqual(resultOfSession(day).gmFluidM);
    expect(headlineGm(aDay()).gmFluidM?.value).toBeCloseTo(DAY_GM, 9);
    expect(headlineGm(aDay({ states: 1 })).refused?.code).toBe(
      resultOfSession(aDay({ states: 1 })).refused?.code,
    );
    expect(headlineGm({ ...day, test: null }).refused?.found).toBe('no test is open yet');
  });

  it('takes every voided reading in where asked', () => {
    const day = aDay({ stateDeg: 0.002, readingDeg: 0.002 });
    const voided = withVoided(day, 3);
    expect(headlineGm(voided, true).gmFluidM?.value).toBeCloseTo(
      headlineGm(day).gmFluidM!.value,
      12,
    );
    expect(headlineGm(voided).gmFluidM?.value).not.toBe(headlineGm(day).gmFluidM?.value);
  });
});
