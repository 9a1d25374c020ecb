import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { Pacer } from './pacer.ts';
import { RigCore } from './rig-core.ts';
import { BOARD_NAMES, type BoardName, type Rig, type RigSettings } from './rig-types.ts';
import type { SliceOrder, SliceResult, WorkerSettings } from './slice.ts';

/** How often the rig looks whether a slice is due. */
const LOOK_MS = 4;

/**
 * Both boards, each in its own worker thread with its own copy of the world, following the wall
 * at a pace. Slices go in step: the next begins when both threads have done the one before, and
 * while they work on it the bytes of the one before are told. What the threads cannot hold makes
 * the pace fall; nothing is left out.
 */
export function startRig(settings: RigSettings): Rig {
  const core = new RigCore(settings);
  const pacer = new Pacer(settings.pace, () => settings.wall.monotonicS());
  const workers = { fore: startWorker('fore'), aft: startWorker('aft') };
  let waitingFor = 0;
  let results: Partial<Record<BoardName, SliceResult>> = {};
  let stopped = false;
  const look = setInterval(beginIfDue, LOOK_MS);

  function startWorker(name: BoardName): Worker {
    const worker = new Worker(workerProgram(), {
      workerData: {
        name,
        seed: settings.seed,
        clockErrorPpm: core.clockErrorPpm(name),
        eeprom: settings.eeproms?.[name],
      } satisfies WorkerSettings,
    });
    worker.on('message', (result: SliceResult) => {
      if (stopped) return;
      results[name] = result;
      waitingFor -= 1;
      if (waitingFor === 0) finishSlice();
    });
    worker.on('error', fail);
    worker.on('exit', (code) => {
      fail(new Error(`the thread of board ${name} ended by itself (${code})`));
    });
    return worker;
  }

  function beginIfDue(): void {
    if (stopped || waitingFor > 0) return;
    const untilS = pacer.sliceUntilS(core.horizonS);
    if (untilS === null) return;
    const { acts, commands } = core.beginSlice(untilS);
    waitingFor = BOARD_NAMES.length;
    results = {};
    for (const name of BOARD_NAMES) {
      workers[name].postMessage({ untilS, acts: acts[name], commands } satisfies SliceOrder);
    }
  }

  function finishSlice(): void {
    const { fore, aft } = results;
    if (fore === undefined || aft === undefined) return;
    const slice = core.slice;
    pacer.held(fore.untilS);
    beginIfDue();
    core.endSlice(slice, { fore, aft });
  }

  function fail(error: Error): void {
    if (stopped) return;
    void stop();
    if (settings.onFailure === undefined) throw error;
    settings.onFailure(error);
  }

  async function stop(): Promise<void> {
    stopped = true;
    clearInterval(look);
    core.closeAll();
    await Promise.all(BOARD_NAMES.map((name) => workers[name].terminate()));
  }

  return {
    boards: core.boards,
    clock: core.clock,
    setPace: (pace) => {
      pacer.setPace(pace, core.horizonS);
    },
    command: (command) => core.command(command),
    vessel: () => core.vessel(),
    disturbBus: (name, fault) => {
      core.disturbBus(name, fault);
    },
    unplug: (name) => {
      core.unplug(name);
    },
    replug: (name) => {
      core.replug(name);
    },
    status: () => ({
      worldTimeS: core.nowS,
      paceWanted: pacer.pace,
      paceHeld: pacer.paceHeld(),
      boards: core.boardStatus(),
    }),
    stop,
  };
}

function workerProgram(): string {
  const folder = process.env.HEELWRIGHT_PROGRAMS ?? fileURLToPath(new URL('.', import.meta.url));
  return `${folder}/avr-worker.mjs`;
}
