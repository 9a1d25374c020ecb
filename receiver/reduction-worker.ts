import { parentPort, workerData } from 'node:worker_threads';
import { Fault } from '#core/fault/fault.ts';
import { dayReduction } from '#core/session/day-reduction.ts';
import { hullOfText } from '#core/session/hull-of-text.ts';
import type { FromReductionWorker, ReductionTask } from './reduction-link.ts';

/** Reads one hull or reduces one day, away from the receiver's loop, answers, and ends. */
const port = parentPort;
if (port === null) throw new Error('reduction-worker is a worker thread, not a program');

port.postMessage(answered(workerData as ReductionTask));

function answered(task: ReductionTask): FromReductionWorker {
  try {
    if (task.kind === 'reduce') return { fault: null, reduction: dayReduction(task.session) };
    hullOfText(task.hull);
    return { fault: null, reduction: null };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { fault: error.report, reduction: null };
  }
}
