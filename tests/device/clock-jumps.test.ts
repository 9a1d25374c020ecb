import { describe, expect, it } from 'vitest';
import { ClockJumps } from '#device/clock-jumps.ts';

class TwoClocks {
  monotonic = 100;
  wall = 1_700_000_000;
  monotonicS = () => this.monotonic;
  wallMs = () => this.wall * 1000;
  pass(seconds: number, wallSeconds = seconds) {
    this.monotonic += seconds;
    this.wall += wallSeconds;
  }
}

describe('whether the station clock is still the same', () => {
  it('it is while both readings go on alike, drawn a little by the time service too', () => {
    const clock = new TwoClocks();
    const jumps = new ClockJumps(clock);
    for (let k = 0; k < 36_000; k += 1) {
      jumps.look();
      clock.pass(0.02, 0.02 * (1 + 500e-6));
    }
    expect(jumps.lastS).toBeNull();
  });

  it.each([
    ['the machine slept ten minutes', 0.02, 600],
    ['the wall clock was set an hour back', 0.02, -3600],
    ['the wall clock was set an hour ahead', 0.02, 3600],
  ])('it is another when %s', (_, seconds, wallSeconds) => {
    const clock = new TwoClocks();
    const jumps = new ClockJumps(clock);
    jumps.look();
    clock.pass(50);
    jumps.look();
    clock.pass(seconds, wallSeconds);
    jumps.look();
    clock.pass(50);
    jumps.look();
    expect(jumps.lastS).toBeCloseTo(150.02, 9);
  });
});
