import { describe, expect, it } from 'vitest';
import { latestOf, replacementRefusal } from '#core/session/fold-certificate.ts';
import { aDay } from './a-day.ts';

describe('the certificate in force', () => {
  const day = aDay({ states: 1 });
  const fore = day.certificates[0]!;

  it('gives way to another number of the same instrument only', () => {
    expect(replacementRefusal(day, { ...fore, number: 'C2' })).toBeNull();
    expect(replacementRefusal(day, fore)?.report.code).toBe('certificate-unfit');
    expect(replacementRefusal(day, { ...fore, instrument: 'mast' })?.report.found).toMatch(
      /mast has no certificate yet/,
    );
  });

  it('stands in the place of the one before', () => {
    const second = { ...fore, number: 'C2' };
    expect(latestOf(day.certificates, second).map(({ number }) => number)).toEqual([
      'C2',
      'C-aft',
      'C-tube',
    ]);
    expect(latestOf([fore], { ...fore, instrument: 'mast' })).toHaveLength(2);
  });
});
