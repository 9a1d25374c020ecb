import { parentPort, workerData } from 'node:worker_threads';
import { countDay, type DayCounts, NO_DAYS } from './day-counts.ts';

/** What one thread is asked: seeds first, first + step, ... until the wall says so. */
export interface DaysAsked {
  readonly firstSeed: number;
  readonly step: number;
  readonly untilMs: number;
}
export interface DaysDone {
  readonly count: DayCounts;
  /** Seeds begun by this thread. */
  readonly seeds: number;
  readonly broken: readonly string[];
}

const { firstSeed, step, untilMs } = workerData as DaysAsked;
const count = { ...NO_DAYS };
const broken: string[] = [];
let seeds = 0;
for (; Date.now() < untilMs; seeds++) {
  await countDay(firstSeed + seeds * step, count).catch((error: Error) =>
    broken.push(error.message),
  );
}
parentPort?.postMessage({ count, seeds, broken } satisfies DaysDone);
