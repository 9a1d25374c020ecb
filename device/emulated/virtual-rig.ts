import { firmwareImage } from './firmware-image.ts';
import { outfitBoard } from './outfit.ts';
import { RigCore } from './rig-core.ts';
import type { BoardName, RigSettings, VirtualRig } from './rig-types.ts';
import { createSimulatedWorld } from './simulated-world.ts';
import { runSlice } from './slice.ts';

const SLICE_S = 0.02;

/** Both boards in this thread and in one world; time passes only in `advance`. */
export function startVirtualRig(settings: Omit<RigSettings, 'pace'>): VirtualRig {
  const core = new RigCore({ ...settings, pace: 1 });
  const world = createSimulatedWorld({ seed: settings.seed });
  const hex = firmwareImage();
  const outfit = (name: BoardName) =>
    outfitBoard(name, {
      world,
      hex,
      seed: settings.seed,
      clockErrorPpm: core.clockErrorPpm(name),
      eeprom: settings.eeproms?.[name],
    });
  const boards = { fore: outfit('fore'), aft: outfit('aft') };
  let stopped = false;
  let pace = 1;

  function slice(untilS: number): void {
    const { acts, commands } = core.beginSlice(untilS);
    for (const { atS, command } of commands) world.command(atS, command);
    core.endSlice(core.slice, {
      fore: runSlice(boards.fore, { untilS, acts: acts.fore }),
      aft: runSlice(boards.aft, { untilS, acts: acts.aft }),
    });
  }

  return {
    boards: core.boards,
    clock: core.clock,
    async advance(seconds) {
      const endS = core.horizonS + seconds;
      while (!stopped && endS - core.horizonS > 1e-9) {
        slice(Math.min(endS, core.horizonS + SLICE_S));
        await new Promise(setImmediate);
      }
    },
    setPace(wanted) {
      pace = wanted;
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
      paceWanted: pace,
      paceHeld: pace,
      boards: core.boardStatus(),
    }),
    async stop() {
      stopped = true;
      core.closeAll();
      await new Promise(setImmediate);
    },
  };
}
