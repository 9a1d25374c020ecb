import { describe, expect, it } from 'vitest';
import { notUsedTold } from '#ui/witness/not-used.ts';
import { FakeDay } from '../../support/fake-day.ts';

describe('not used, and why', () => {
  it('tells disturbances and voided readings newest first, with who and the evidence', () => {
    const day = new FakeDay();
    day.goOn(2);
    day.write(
      'disturbance',
      { fromS: 10, toS: 31, kind: 'wake', instruments: null, evidence: 'roll forced to 0.4°' },
      'receiver',
    );
    day.write(
      'disturbance',
      { fromS: 40, toS: 48, kind: 'knock', instruments: ['aft-incline'], evidence: '' },
      'receiver',
    );
    expect(notUsedTold(day.session).map((each) => [each.title, each.evidence])).toEqual([
      ['Knock, 8 s not used', 'Aft only'],
      ['Wake, 21 s not used', 'all instruments; roll forced to 0.4°'],
      ['Reading 2 voided by E. Thorne', 'Line touched'],
    ]);
  });
});
