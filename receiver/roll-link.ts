import { Worker } from 'node:worker_threads';
import { Fault, type FaultReport } from '#core/fault/fault.ts';
import type { RollFound, RollInstrument } from '#core/reduction/roll-look.ts';
import { programFile } from './program.ts';

/** Given to the roll worker as its `workerData`. */
export interface RollTask {
  readonly instruments: readonly RollInstrument[];
  readonly mark: { readonly fromS: number; readonly toS: number } | null;
  readonly afterS: number;
}

/** All it ever says. */
export type FromRollWorker =
  | { readonly found: RollFound[]; readonly fault: null }
  | { readonly found: null; readonly fault: FaultReport };

/** Twenty minutes of twelve instruments take a second or two. */
const ANSWER_WITHIN_MS = 20_000;
const MOST_WORKER_MB = 256;

/** Looks for free roll in a worker of its own. Rejects with the fault it met, or `no-convergence`. */
export function lookInWorker(task: RollTask): Promise<RollFound[]> {
  const worker = new Worker(programFile('roll-worker'), {
    workerData: task,
    resourceLimits: { maxOldGenerationSizeMb: MOST_WORKER_MB },
  });
  return new Promise<RollFound[]>((resolve, reject) => {
    const failed = (found: string) => reject(new Fault('no-convergence', 'roll', found));
    const timer = setTimeout(() => {
      failed('looking for free roll took too long');
      void worker.terminate();
    }, ANSWER_WITHIN_MS);
    worker.on('message', (message: FromRollWorker) => {
      if (message.fault === null) resolve(message.found);
      else reject(new Fault(message.fault.code, message.fault.where, message.fault.found));
    });
    worker.on('error', (error) => failed(error.message));
    worker.on('exit', () => {
      clearTimeout(timer);
      failed('the worker ended without an answer');
    });
  });
}
