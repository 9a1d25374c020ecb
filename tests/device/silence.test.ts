import { describe, expect, it } from 'vitest';
import { SilenceWatch } from '#device/silence.ts';

const TICK_S = 0.02;

/** Ticks of a program, the machine's clock and the station's at a pace; returns when it gave up, or null. */
function gaveUpAfter(seconds: number, options: { pace?: number; periodUs?: number } = {}) {
  const watch = new SilenceWatch(options.periodUs ?? 20_000, TICK_S);
  for (let machineS = 0; machineS < seconds; machineS += TICK_S) {
    if (watch.tick(machineS * (options.pace ?? 1), machineS)) return machineS;
  }
  return null;
}

describe('the watch for silence', () => {
  it('gives a board up after a second without a scan', () => {
    expect(gaveUpAfter(5)).toBeCloseTo(1, 1);
  });

  it('waits for five periods of a slow board', () => {
    expect(gaveUpAfter(20, { periodUs: 2_000_000 })).toBeCloseTo(10, 1);
  });

  it('is no quicker when simulated time runs faster than the wall', () => {
    expect(gaveUpAfter(5, { pace: 50 })).toBeCloseTo(1, 1);
  });

  it('does not judge while simulated time stands still', () => {
    expect(gaveUpAfter(20, { pace: 0 })).toBeNull();
  });

  it('hears what arrived during a sleep of the laptop before it judges', () => {
    const watch = new SilenceWatch(20_000, TICK_S);
    expect(watch.tick(0, 0)).toBe(false);
    expect(watch.tick(600, 600)).toBe(false);
    watch.heard();
    expect(watch.tick(600.02, 600.02)).toBe(false);
  });

  it('begins anew with each scan', () => {
    const watch = new SilenceWatch(20_000, TICK_S);
    for (let k = 0; k < 1000; k += 1) {
      if (k % 40 === 0) watch.heard();
      expect(watch.tick(k * TICK_S, k * TICK_S)).toBe(false);
    }
  });
});
