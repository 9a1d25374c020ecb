import { Worker } from 'node:worker_threads';
import { Fault, type FaultReport } from '#core/fault/fault.ts';
import type { HullText } from '#core/record/entry-line.ts';
import type { DayReduction } from '#core/session/day-reduction.ts';
import type { SessionState } from '#core/session/session.ts';
import { programFile } from './program.ts';

/** Given to the reduction worker as its `workerData`. */
export type ReductionTask =
  | { readonly kind: 'check-hull'; readonly hull: HullText }
  | { readonly kind: 'reduce'; readonly session: SessionState };

/** All it ever says. */
export type FromReductionWorker =
  | { readonly fault: null; readonly reduction: DayReduction | null }
  | { readonly fault: FaultReport; readonly reduction: null };

/** A day of forty shifts with its hull takes a few seconds on a slow machine. */
const ANSWER_WITHIN_MS = 60_000;
const MOST_WORKER_MB = 512;

/** Reads a hull's text away from the receiver's loop. Rejects with what is wrong in it. */
export async function checkHullInWorker(hull: HullText): Promise<void> {
  await inWorker({ kind: 'check-hull', hull });
}

/** The whole reduction of the day, with its real hull where one is entered. */
export async function reduceInWorker(session: SessionState): Promise<DayReduction> {
  const reduction = await inWorker({ kind: 'reduce', session });
  if (reduction === null) throw new Fault('no-convergence', 'reduction', 'no answer');
  return reduction;
}

function inWorker(task: ReductionTask): Promise<DayReduction | null> {
  const worker = new Worker(programFile('reduction-worker'), {
    workerData: task,
    resourceLimits: { maxOldGenerationSizeMb: MOST_WORKER_MB },
  });
  return new Promise((resolve, reject) => {
    const failed = (found: string) => reject(new Fault('no-convergence', 'reduction', found));
    const timer = setTimeout(() => {
      failed(`no answer within ${ANSWER_WITHIN_MS / 1000} s`);
      void worker.terminate();
    }, ANSWER_WITHIN_MS);
    worker.on('message', (message: FromReductionWorker) => {
      if (message.fault === null) resolve(message.reduction);
      else reject(new Fault(message.fault.code, message.fault.where, message.fault.found));
    });
    worker.on('error', (error) => failed(error.message));
    worker.on('exit', () => {
      clearTimeout(timer);
      failed('the worker ended without an answer');
    });
  });
}
