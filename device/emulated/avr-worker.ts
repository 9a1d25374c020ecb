import { parentPort, workerData } from 'node:worker_threads';
import { firmwareImage } from './firmware-image.ts';
import { outfitBoard } from './outfit.ts';
import { createSimulatedWorld } from './simulated-world.ts';
import { runSlice, type SliceOrder, type WorkerSettings } from './slice.ts';

/** One emulated board and its own copy of the world in a thread: slices in, results out. */
const port = parentPort;
if (port === null) throw new Error('this program is a worker of the emulated rig');

const settings = workerData as WorkerSettings;
const world = createSimulatedWorld({ seed: settings.seed });
const board = outfitBoard(settings.name, { ...settings, world, hex: firmwareImage() });

port.on('message', (order: SliceOrder) => {
  for (const { atS, command } of order.commands) world.command(atS, command);
  port.postMessage(runSlice(board, order));
});
