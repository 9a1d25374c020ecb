import { describe, expect, it } from 'vitest';
import { scaleErrors } from '#core/reduction/scale-errors.ts';

const instrument = (name: string, number?: string) => ({
  instrument: name,
  scaleUncertainty: 0.005,
  space: 'sine' as const,
  standard: number === undefined ? undefined : { number, commonShare: 0.003 },
});

describe('errors of scale', () => {
  it('are one a standard and one an instrument, and give each its own variance back', () => {
    const instruments = [instrument('fore', 'B1'), instrument('aft', 'B1'), instrument('tube')];
    const errors = scaleErrors(instruments);
    expect(errors.map(({ cause }) => cause)).toEqual([
      'scale of fore',
      'scale of aft',
      'scale of tube',
      'calibration standard B1',
    ]);
    for (const k of [0, 1, 2])
      expect(Math.hypot(...errors.map(({ shareOf }) => shareOf(k)))).toBeCloseTo(0.005, 12);
  });

  it('leave nothing to an instrument whose standard states more than its certificate', () => {
    const [own] = scaleErrors([{ ...instrument('fore', 'B1'), scaleUncertainty: 0.001 }]);
    expect(own!.shareOf(0)).toBe(0);
  });
});
