import { performance } from 'node:perf_hooks';
import type { Line } from '#core/record/line.ts';
import type { Clock } from '#core/time/clock.ts';

/** The machine's own clocks: the one place where the receiver asks for them. */
export const MACHINE_CLOCK: Clock = {
  monotonicS: () => performance.now() / 1000,
  wallMs: () => Date.now(),
};

/** Where a record stood when its last line was written. */
export interface ClockStart {
  readonly monotonicS: number;
  readonly wallMs: number;
}

/** Where a record stopped, by its last line. */
export function clockStartOf(last: Line | null): ClockStart | null {
  return last === null ? null : { monotonicS: last.receiverS, wallMs: Date.parse(last.wall) };
}

/**
 * A clock that goes on where a record stopped, so that receiver time never goes back within one
 * record: ahead by what the wall says has passed, by nothing when the wall went back.
 */
export function continuedClock(machine: Clock, last: ClockStart | null): Clock {
  if (last === null) return sinceNow(machine, 0);
  return sinceNow(machine, last.monotonicS + Math.max(0, machine.wallMs() - last.wallMs) / 1000);
}

function sinceNow(machine: Clock, startS: number): Clock {
  const zeroS = machine.monotonicS();
  return {
    monotonicS: () => startS + machine.monotonicS() - zeroS,
    wallMs: () => machine.wallMs(),
  };
}
