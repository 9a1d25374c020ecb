import { dirname } from 'node:path';
import type { Clock } from '#core/time/clock.ts';
import type { Dock } from '../dock.ts';
import { batteryReader } from './battery.ts';
import { ClockCheck } from './clock-check.ts';
import { diskReader } from './disk.ts';
import { LaptopWatch } from './laptop-watch.ts';
import { awakeCommand, SleepInhibitor } from './sleep.ts';
import { folderFinding } from './synced-folder.ts';

const LOOK_EVERY_MS = 30_000;
/** Soon after the start too: what is wrong is best known before the first shift. */
const FIRST_LOOK_AFTER_MS = 3000;
const OFTEN_EVERY_MS = 1000;

export interface LaptopSettings {
  readonly machine: Clock;
  readonly warn: (error: Error) => void;
  /** Seconds a station must be gone before it is a matter. */
  readonly linkLostAfterS: number;
}

/** The watch over this very machine, running until it is stopped. */
export function watchLaptop(
  dock: Dock,
  { machine, warn, linkLostAfterS }: LaptopSettings,
): { stop(): void } {
  const folder = dirname(dock.record.path);
  const sleep = new SleepInhibitor(awakeCommand(process.platform, process.pid));
  // A paced record's wall time is the simulation's and says nothing of this machine's.
  const lastWallMs = dock.paced ? null : dock.openedAtWallMs;
  const watch = new LaptopWatch({
    machine,
    session: dock.session,
    receiverS: () => dock.record.clock.monotonicS(),
    recordBytes: () => dock.record.saved.bytes,
    recordFault: () => dock.record.fault,
    stations: dock.stations,
    battery: batteryReader(process.platform),
    disk: diskReader(folder),
    clock: new ClockCheck(machine, lastWallMs),
    folder: folderFinding(folder, process.platform),
    sleep,
    write: (state) =>
      void dock.record.append('laptop-state', state, { author: 'receiver', role: 'receiver' }),
    warn,
    linkLostAfterS,
  });
  const timers = [
    setTimeout(() => void watch.look(), FIRST_LOOK_AFTER_MS),
    setInterval(() => void watch.look(), LOOK_EVERY_MS),
    setInterval(() => watch.lookOften(), OFTEN_EVERY_MS),
  ];
  return {
    stop: () => {
      for (const timer of timers) clearTimeout(timer);
      sleep.release();
    },
  };
}
