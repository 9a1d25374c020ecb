import { describe, expect, it } from 'vitest';
import type { Trace } from '#ui/link/traces.ts';
import { bandsOf, countedStretches, laneRange, silences, splitTrace } from '#ui/show/strip.ts';

function trace(atS: number[], heelDeg: (number | null)[]): Trace {
  return { atS, heelDeg, meanAtS: [], meanDeg: [], halfWidthDeg: [] };
}
const wake = { fromS: 10, toS: 20, kind: 'wake', instruments: null };
const knock = { fromS: 12, toS: 14, kind: 'knock', instruments: ['aft'] };

describe('the hanging strip', () => {
  it('hatches the vessel over every lane, and one instrument over its own', () => {
    expect(bandsOf('fore', [wake, knock])).toEqual([wake]);
    expect(bandsOf('aft', [wake, knock])).toEqual([wake, knock]);
    expect(bandsOf('aft', [{ ...wake, kind: 'settling' }])).toEqual([]);
  });

  it('keeps every sample in one of two columns, never in both and never lost', () => {
    const { used, rejected } = splitTrace(trace([9, 11, 15, 21], [1, 2, null, 4]), [wake]);
    expect(used).toEqual([1, null, null, 4]);
    expect(rejected).toEqual([null, 2, null, null]);
  });

  it('counts back from now, leaving out what was the vessel', () => {
    expect(countedStretches(40, 25, [wake, knock])).toEqual([
      { fromS: 20, toS: 40 },
      { fromS: 5, toS: 10 },
    ]);
    expect(countedStretches(40, 0, [wake])).toEqual([]);
    expect(countedStretches(18, 5, [wake])).toEqual([{ fromS: 5, toS: 10 }]);
  });

  it('has one scale for all lanes that holds every sample', () => {
    const range = laneRange([trace([0, 1], [-2.4, -2.9]), trace([0], [null])], null);
    expect(range.loDeg).toBeLessThanOrEqual(-2.9);
    expect(range.hiDeg).toBeGreaterThanOrEqual(-2.4);
    expect(laneRange([], 1)).toEqual({ loDeg: 0.5, hiDeg: 1.5 });
  });

  it('names a missing stretch instead of bridging it', () => {
    expect(silences(trace([0, 0.1, 5, 5.1], [1, 1, 1, 1]), 5.2)).toEqual([{ fromS: 0.1, toS: 5 }]);
    expect(silences(trace([0, 0.1], [1, 1]), 9)).toEqual([{ fromS: 0.1, toS: 9 }]);
    expect(silences(trace([0, 0.5, 1.2], [1, null, 1]), 1.3)).toEqual([{ fromS: 0, toS: 1.2 }]);
  });
});
