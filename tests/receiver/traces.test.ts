import { describe, expect, it } from 'vitest';
import { Traces } from '#receiver/traces.ts';

function heel(fromS: number, count: number) {
  const atS = Array.from({ length: count }, (_, index) => fromS + index / 10);
  return { instrument: 'fore', atS, heelDeg: atS.map((s) => s / 100), temperatureC: null };
}

describe('traces', () => {
  it('keep two minutes and tell apart what is new', () => {
    const traces = new Traces();
    traces.add(heel(0, 900));
    traces.markSent();
    traces.add(heel(90, 900));
    expect(traces.news('fore').atS).toHaveLength(900);
    const whole = traces.whole('fore');
    expect(Math.abs((whole.atS[0] ?? 0) - 60)).toBeLessThan(0.11);
    expect(whole.atS.at(-1)).toBeCloseTo(179.9, 6);
    expect(whole.heelDeg).toHaveLength(whole.atS.length);
    traces.markSent();
    expect(traces.news('fore').atS).toEqual([]);
  });

  it('stay within their limit when a pace bunches minutes into one step', () => {
    const traces = new Traces();
    traces.markSent();
    traces.add(heel(0, 5000));
    expect(traces.whole('fore').atS.length).toBeLessThanOrEqual(1600);
    expect(traces.news('fore').atS).toEqual(traces.whole('fore').atS);
  });

  it('know nothing of an instrument that never spoke', () => {
    expect(new Traces().whole('aft')).toEqual({ atS: [], heelDeg: [] });
    expect(new Traces().temperatureC('aft')).toBeNull();
  });
});
