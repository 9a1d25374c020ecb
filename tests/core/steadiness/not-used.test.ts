import { describe, expect, it } from 'vitest';
import { NotUsedStretches } from '#core/steadiness/not-used.ts';

const knock = { kind: 'knock', fromS: 10, noticedS: 11, instrument: 'aft', evidence: 'Aft alone' };
const wake = { kind: 'wake', fromS: 20, noticedS: 22, instrument: null, evidence: 'swings' };

describe('stretches not used', () => {
  it('are open until they end, then reported once', () => {
    const stretches = new NotUsedStretches();
    const open = stretches.begin({ ...knock });
    expect(stretches.of('aft')).toBe(open);
    expect(stretches.of(null)).toBeUndefined();
    stretches.end(open, 15);
    expect(stretches.of('aft')).toBeUndefined();
    const body = { kind: 'knock', fromS: 10, toS: 15, instruments: ['aft'], evidence: 'Aft alone' };
    expect(stretches.report()).toEqual([body]);
    expect(stretches.report()).toEqual([]);
  });

  it('are shown in order, ended and open, for two minutes', () => {
    const stretches = new NotUsedStretches();
    stretches.begin({ ...wake });
    stretches.end(stretches.begin({ ...knock }), 15);
    const shown = stretches.shown(30);
    expect(shown.map(({ fromS, toS }) => [fromS, toS])).toEqual([
      [10, 15],
      [20, 30],
    ]);
    expect(shown[1]!.instruments).toBeNull();
    expect(stretches.shown(136).map(({ kind }) => kind)).toEqual(['wake']);
  });

  it('leave no trace when dropped, and no report when none is asked for', () => {
    const stretches = new NotUsedStretches();
    stretches.drop(stretches.begin({ ...knock }));
    stretches.end(stretches.begin({ ...wake }), 25, false);
    expect(stretches.report()).toEqual([]);
    expect(stretches.shown(30).map(({ kind }) => kind)).toEqual(['wake']);
  });

  it('stand against an instrument until they are overruled, also when found once more', () => {
    const stretches = new NotUsedStretches();
    stretches.end(stretches.begin({ ...wake }), 30);
    stretches.begin({ ...knock });
    expect(stretches.standing('aft')).toEqual([
      expect.objectContaining({ fromS: 20, toS: 30 }),
      expect.objectContaining({ fromS: 10, toS: Number.POSITIVE_INFINITY }),
    ]);
    expect(stretches.standing('fore')).toHaveLength(1);
    stretches.overrule({ fromS: 21, toS: 31, instruments: null });
    expect(stretches.standing('fore')).toEqual([]);
    expect(stretches.shown(40).map(({ kind }) => kind)).toEqual(['knock']);
    // Found again after a restart, it begins a little later; another wake is another matter.
    stretches.end(stretches.begin({ ...wake, fromS: 22 }), 30);
    expect(stretches.standing('fore')).toEqual([]);
    stretches.end(stretches.begin({ ...wake, fromS: 27 }), 50);
    expect(stretches.standing('fore')).toHaveLength(1);
  });
});
