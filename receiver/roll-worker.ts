import { parentPort, workerData } from 'node:worker_threads';
import { Fault } from '#core/fault/fault.ts';
import { lookForRoll } from '#core/reduction/roll-look.ts';
import type { FromRollWorker, RollTask } from './roll-link.ts';

/** Looks for free roll once, away from the receiver's loop, says what it found, and ends. */
const port = parentPort;
if (port === null) throw new Error('roll-worker is a worker thread, not a program');

port.postMessage(answered(workerData as RollTask));

function answered({ instruments, mark, afterS }: RollTask): FromRollWorker {
  try {
    return { found: lookForRoll(instruments, mark, afterS), fault: null };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { found: null, fault: error.report };
  }
}
