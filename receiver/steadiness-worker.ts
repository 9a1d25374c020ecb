import { parentPort, workerData } from 'node:worker_threads';
import { Fault } from '#core/fault/fault.ts';
import { createWatch } from '#core/steadiness/watch.ts';
import type { Watch, WatchSettings } from '#core/steadiness/watch-types.ts';
import type { FromSteadinessWorker, ToSteadinessWorker } from './steadiness-messages.ts';
import { tellWatch } from './tell-watch.ts';

/**
 * The steadiness watch in a thread of its own, so that fitting never holds the receiver's loop.
 * Started with the first settings as `workerData`; see steadiness-messages.ts.
 */
const port = parentPort;
if (port === null) throw new Error('steadiness-worker is a worker thread, not a program');

let watch: Watch = createWatch(workerData as WatchSettings);

const say = (message: FromSteadinessWorker): void => port.postMessage(message);

function serve(message: ToSteadinessWorker): void {
  switch (message.type) {
    case 'watch':
      watch = createWatch(message.settings);
      return;
    case 'begin-state':
    case 'carrying':
    case 'accepted':
    case 'target':
    case 'overrule':
    case 'samples': {
      tellWatch(watch, message);
      const finished = watch.finished();
      if (finished.length > 0) say({ type: 'finished', finished });
      return;
    }
    case 'picture': {
      const { number, nowS } = message;
      const picture = watch.picture(nowS);
      say({ type: 'picture', number, nowS, picture });
      return;
    }
    case 'take-reading':
      takeReading(message.number, message.nowS);
      return;
  }
}

function takeReading(number: number, nowS: number): void {
  try {
    say({ type: 'reading', number, reading: watch.reading(nowS) });
  } catch (error) {
    if (!(error instanceof Fault) || error.code !== 'act-not-steady') throw error;
    say({ type: 'not-steady', number, whyNot: error.report.found });
  }
}

port.on('message', (message: ToSteadinessWorker) => {
  try {
    serve(message);
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    say({ type: 'fault', ...error.report });
  }
});
