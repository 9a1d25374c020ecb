import { parentPort, workerData } from 'node:worker_threads';
import { Fault } from '#core/fault/fault.ts';
import type { DocumentTask, FromDocumentWorker } from './document-link.ts';
import { documentOfRecord } from './documents.ts';

/** Makes one document, away from the receiver's loop, says it, and ends. */
const port = parentPort;
if (port === null) throw new Error('document-worker is a worker thread, not a program');

port.postMessage(await answered(workerData as DocumentTask));

async function answered({ path, name, endBytes }: DocumentTask): Promise<FromDocumentWorker> {
  try {
    return { bytes: await documentOfRecord(path, name, endBytes), fault: null };
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return { bytes: null, fault: error.report };
  }
}
