import { Worker } from 'node:worker_threads';
import { Fault, type FaultReport } from '#core/fault/fault.ts';
import { programFile } from '../program.ts';
import type { DocumentName } from './document-names.ts';

/** Given to the document worker as its `workerData`. */
export interface DocumentTask {
  readonly path: string;
  readonly name: DocumentName;
  readonly endBytes: number;
}

/** All it ever says. */
export type FromDocumentWorker =
  | { readonly bytes: Uint8Array; readonly fault: null }
  | { readonly bytes: null; readonly fault: FaultReport };

/** Eight hours of three boards take some twenty seconds on a slow laptop. */
const ANSWER_WITHIN_MS = 180_000;
const MOST_WORKER_MB = 1024;

/** A document of a record, made in a worker of its own. Rejects with the fault it met, or `report-not-made`. */
export function documentInWorker(
  path: string,
  name: DocumentName,
  endBytes: number,
): Promise<Uint8Array> {
  const worker = new Worker(programFile('document-worker'), {
    workerData: { path, name, endBytes } satisfies DocumentTask,
    resourceLimits: { maxOldGenerationSizeMb: MOST_WORKER_MB },
  });
  return new Promise<Uint8Array>((resolve, reject) => {
    const failed = (found: string) => reject(new Fault('report-not-made', name, found));
    const timer = setTimeout(() => {
      failed('it took too long');
      void worker.terminate();
    }, ANSWER_WITHIN_MS);
    worker.on('message', (message: FromDocumentWorker) => {
      if (message.fault === null) resolve(message.bytes);
      else reject(new Fault(message.fault.code, message.fault.where, message.fault.found));
    });
    worker.on('error', (error) => failed(error.message));
    worker.on('exit', () => {
      clearTimeout(timer);
      failed('the worker ended without an answer');
    });
  });
}
