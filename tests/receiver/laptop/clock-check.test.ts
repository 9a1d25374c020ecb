import { describe, expect, it } from 'vitest';
import { ClockCheck, MOST_STEP_S } from '#receiver/laptop/clock-check.ts';

/** A machine whose two clocks are moved by the test. */
class Machine {
  atS = 5000;
  wallS = 1_795_000_000;
  readonly clock = { monotonicS: () => this.atS, wallMs: () => this.wallS * 1000 };

  /** Both go on together; the wall by so much more. */
  pass(seconds: number, aheadS = 0): void {
    this.atS += seconds;
    this.wallS += seconds + aheadS;
  }
}

describe('ClockCheck', () => {
  it('lets a clock be drawn slowly to the right time: 500 ppm over a day is no step', () => {
    const machine = new Machine();
    const check = new ClockCheck(machine.clock, null);
    // What a time service draws a clock by at most (RFC 5905, *from memory*).
    for (let k = 0; k < 2880; k += 1) {
      machine.pass(30, 30 * 500e-6);
      expect(check.finding().severity).toBe('well');
    }
  });

  it('tells a step either way with its size, in the unit a person reads it in', () => {
    for (const [stepS, words] of [
      [MOST_STEP_S + 0.1, 'set forward by 2.1 s'],
      [-119, 'set back by 119.0 s'],
      [-120, 'set back by 2.0 min'],
      [3600, 'set forward by 60.0 min'],
    ] as const) {
      const machine = new Machine();
      const check = new ClockCheck(machine.clock, null);
      machine.pass(30, stepS);
      expect(check.finding()).toMatchObject({ matter: 'clock', severity: 'notice' });
      expect(check.finding().found).toContain(words);
    }
  });

  it('does not tell a step of exactly the bound, nor one before it was made', () => {
    const machine = new Machine();
    machine.pass(30, 7200);
    const check = new ClockCheck(machine.clock, null);
    machine.pass(30, MOST_STEP_S);
    expect(check.finding().severity).toBe('well');
  });

  it('tells ten minutes asleep where the monotonic clock stood still meanwhile', () => {
    const machine = new Machine();
    const check = new ClockCheck(machine.clock, null);
    machine.wallS += 600;
    expect(check.finding().found).toBe(
      'the clock was set forward by 10.0 min, or the machine slept',
    );
  });

  it('tells it for ten minutes, the later of two steps in its place', () => {
    const machine = new Machine();
    const check = new ClockCheck(machine.clock, null);
    machine.pass(30, 60);
    expect(check.finding().found).toContain('forward by 60.0 s');
    machine.pass(500, -90);
    expect(check.finding().found).toContain('back by 90.0 s');
    machine.pass(600);
    expect(check.finding().severity).toBe('notice');
    machine.pass(1);
    expect(check.finding()).toMatchObject({ severity: 'well', found: 'the clock runs evenly' });
  });

  it('tells a clock before the last line of the record until it has come up to it', () => {
    const machine = new Machine();
    const check = new ClockCheck(machine.clock, (machine.wallS + 3600) * 1000);
    expect(check.finding().found).toContain("60.0 min before the record's last line");
    machine.pass(3597);
    expect(check.finding().severity).toBe('notice');
    machine.pass(2);
    expect(check.finding().severity).toBe('well');
  });

  it('that is put right from before the last line is then told as set', () => {
    const machine = new Machine();
    const check = new ClockCheck(machine.clock, (machine.wallS + 3600) * 1000);
    check.finding();
    machine.pass(30, 3700);
    expect(check.finding().found).toContain('set forward by 61.7 min');
  });
});
