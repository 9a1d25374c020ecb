import { on } from 'node:events';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { afterEach, describe, expect, it } from 'vitest';
import type { WatchSettings } from '#core/steadiness/watch-types.ts';
import type { FromSteadinessWorker, ToSteadinessWorker } from '#receiver/steadiness-messages.ts';
import { simulatedHeel } from '../support/simulated-heel.ts';

const settings: WatchSettings = {
  instruments: [{ instrument: 'fore', label: 'Fore', settlingS: 0, refused: null }],
};

let worker: Worker | null = null;
afterEach(async () => {
  await worker?.terminate();
  worker = null;
});

function start(): Worker {
  const programs = process.env['HEELWRIGHT_PROGRAMS'];
  if (programs === undefined) throw new Error('the programs are not built');
  const url = pathToFileURL(join(programs, 'steadiness-worker.mjs'));
  worker = new Worker(url, { workerData: settings });
  return worker;
}

async function ask(to: Worker, message: ToSteadinessWorker): Promise<FromSteadinessWorker> {
  const answers = on(to, 'message');
  to.postMessage(message);
  // What was told is answered by nobody's asking.
  for await (const [answer] of answers as AsyncIterable<[FromSteadinessWorker]>)
    if (answer.type !== 'finished') return answer;
  throw new Error('no answer');
}

describe('steadiness worker', () => {
  it('watches samples, answers with a picture, refuses early and gives a reading when steady', async () => {
    const thread = start();
    const say = (message: ToSteadinessWorker) => thread.postMessage(message);
    const heelDeg = simulatedHeel({ seed: 5, lengthS: 120, rollDeg: 0.05, slowDeg: 0.002 });
    const atS = heelDeg.map((_, k) => (k + 1) / 10);
    say({ type: 'begin-state', atS: 0 });
    say({
      type: 'samples',
      instrument: 'fore',
      atS: atS.slice(0, 100),
      heelDeg: heelDeg.slice(0, 100),
    });
    const early = await ask(thread, { type: 'take-reading', number: 1, nowS: 10.5 });
    expect(early).toMatchObject({ type: 'not-steady', number: 1 });
    say({ type: 'samples', instrument: 'fore', atS: atS.slice(100), heelDeg: heelDeg.slice(100) });
    const answer = await ask(thread, { type: 'picture', number: 2, nowS: 120.5 });
    expect(answer).toMatchObject({ type: 'picture', number: 2 });
    if (answer.type !== 'picture') throw new Error(answer.type);
    expect(answer.picture.joined.verdict).toBe('steady');
    const taken = await ask(thread, { type: 'take-reading', number: 3, nowS: 120.5 });
    if (taken.type !== 'reading') throw new Error(taken.type);
    expect(Math.abs(taken.reading.joined.heelDeg - 1.25)).toBeLessThan(0.02);
  });

  it('answers a sample of an unknown instrument by a fault and goes on', async () => {
    const thread = start();
    const samples = { type: 'samples', instrument: 'mast', atS: [1], heelDeg: [0] } as const;
    expect(await ask(thread, samples)).toMatchObject({ type: 'fault', code: 'input-shape' });
    const picture = await ask(thread, { type: 'picture', number: 9, nowS: 2 });
    expect(picture).toMatchObject({ type: 'picture', number: 9 });
  });
});
