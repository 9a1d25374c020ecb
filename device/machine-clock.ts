import type { Clock } from '#core/time/clock.ts';

/** The machine's own clock: the one place of the board side that asks for the time. */
export const machineClock: Clock = {
  monotonicS: () => performance.now() / 1000,
  wallMs: () => Date.now(),
};

/**
 * The two clocks of the board side. `station` stamps everything that is recorded and may be the
 * simulated world's, faster than the wall; `machine` is for deadlines of sockets, ports and disks.
 */
export interface Clocks {
  readonly station: Clock;
  readonly machine: Clock;
}

/** Resolves when the clock has advanced by so many seconds of its own, looked at every 5 ms. */
export async function waitS(clock: Clock, seconds: number): Promise<void> {
  const until = clock.monotonicS() + seconds;
  while (clock.monotonicS() < until) {
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}
