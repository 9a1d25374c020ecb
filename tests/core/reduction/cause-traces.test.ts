import { describe, expect, it } from 'vitest';
import { type CauseTrace, traceSupport } from '#core/reduction/cause-traces.ts';

const her = (state: number, kind: string): CauseTrace => ({ state, kind, instruments: null });

describe('stretches not counted, as evidence', () => {
  it('speak for somebody who moved only where it begins', () => {
    const traces = [her(3, 'moved')];
    expect(traceSupport('moved', traces, 3, null)).toEqual({ support: 3, traces });
    expect(traceSupport('moved', traces, 4, null)).toEqual({ support: 0, traces: [] });
  });

  it('speak for a line or the wind wherever they lie, the more the more often, up to a limit', () => {
    const often = (count: number) => Array.from({ length: count }, (_, k) => her(k, 'gust'));
    const of = (count: number) => traceSupport('wind', often(count), null, null).support;
    expect([of(0), of(2), of(4), of(60)]).toEqual([0, 1, 2, 3]);
    expect(traceSupport('line', [her(2, 'line')], null, null).support).toBeGreaterThan(0);
  });

  it('of one instrument speak for that one alone, and not of her', () => {
    const traces = [{ state: 5, kind: 'knock', instruments: [1] }];
    expect(traceSupport('slipped', traces, 5, 1).support).toBe(3);
    expect(traceSupport('slipped', traces, 5, 0).support).toBe(0);
    expect(traceSupport('moved', [{ ...traces[0]!, kind: 'moved' }], 5, null).support).toBe(0);
  });

  it('say nothing of a weight or a tank', () => {
    expect(traceSupport('weight', [her(1, 'moved')], 1, null).support).toBe(0);
  });
});
