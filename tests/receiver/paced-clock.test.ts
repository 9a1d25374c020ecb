import { describe, expect, it } from 'vitest';
import { continuedClock } from '#receiver/machine-clock.ts';
import { PacedClock } from '#receiver/paced-clock.ts';
import { randomFromSeed } from '#tests/support/seeded.ts';

function machineAt() {
  const machine = {
    nowS: 100,
    /** Passes between two readings, as on a real machine. */
    stepS: 0,
    monotonicS: () => {
      machine.nowS += machine.stepS;
      return machine.nowS;
    },
    wallMs: () => machine.nowS * 1000,
  };
  return machine;
}

describe('the paced clock', () => {
  it.each([1, 7, 20, 50])('never goes back and follows a simulation at pace %i', (pace) => {
    const machine = machineAt();
    const clock = new PacedClock(machine, null);
    const random = randomFromSeed(pace);
    let simulationS = 0;
    let last = clock.monotonicS();
    for (let tick = 0; tick < 600; tick += 1) {
      const wallS = 0.05 + random() * 0.1;
      machine.nowS += wallS;
      // Now and then the machine does not hold the pace.
      const held = tick % 100 < 80 ? pace : pace / 3;
      simulationS += wallS * held;
      expect(clock.monotonicS()).toBeGreaterThanOrEqual(last);
      last = clock.monotonicS();
      machine.stepS = 1e-4;
      clock.steer(simulationS, held);
      machine.stepS = 0;
      expect(clock.monotonicS()).toBeGreaterThanOrEqual(last);
    }
    // Within what passes in a tenth of a wall second.
    expect(Math.abs(clock.monotonicS() - simulationS)).toBeLessThan(0.1 * pace + 1e-9);
  });

  it('goes on from where a record stopped, its wall reading along with it', () => {
    const machine = machineAt();
    const clock = new PacedClock(machine, { monotonicS: 5000, wallMs: 9_000_000 });
    expect([clock.monotonicS(), clock.wallMs()]).toEqual([5000, 9_000_000]);
    clock.steer(5000, 10);
    machine.nowS += 2;
    expect(clock.monotonicS()).toBeCloseTo(5020, 9);
    expect(clock.wallMs()).toBeCloseTo(9_020_000, 3);
  });

  it('jumps on when it is hopelessly behind, and waits when it is ahead', () => {
    const machine = machineAt();
    const clock = new PacedClock(machine, null);
    clock.steer(1000, 10);
    expect(clock.monotonicS()).toBe(1000);
    clock.steer(400, 10);
    machine.nowS += 1;
    expect(clock.monotonicS()).toBeCloseTo(1001, 9);
  });
});

describe('the clock of a continued record', () => {
  it('is ahead by what the wall says has passed, and never behind', () => {
    const machine = machineAt();
    const later = continuedClock(machine, { monotonicS: 50, wallMs: machine.wallMs() - 30_000 });
    expect(later.monotonicS()).toBe(80);
    const steppedBack = continuedClock(machine, { monotonicS: 50, wallMs: machine.wallMs() + 1e6 });
    expect(steppedBack.monotonicS()).toBe(50);
    machine.nowS += 3;
    expect(steppedBack.monotonicS()).toBe(53);
  });
});
