import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { DisturbanceSwitches } from '#core/record/line.ts';
import { BOARD_CHANNELS } from '#core/sample/layout.ts';
import type { Hello, Simulate, SimulationStatus } from '#core/wire/link-message.ts';
import { writeWhole } from './data-folder.ts';
import { driverOf } from './drivers/all.ts';
import { marramMountings, marramTest } from './emulated/marram.ts';
import { marramSurvey } from './emulated/marram-survey.ts';
import { BOARD_NAMES, type BoardName, type Rig } from './emulated/rig-types.ts';
import { ALL_QUIET } from './emulated/simulated-world.ts';
import { sineBarCertificates } from './emulated/sine-bar.ts';
import type { ExpectedChip } from './outfit.ts';
import type { StationOutfit } from './station.ts';
import type { BoardPort } from './transport.ts';

const OUR_BAUD_RATE = 115_200;
/** Where the rig's boards carry their chips (device/emulated/rig-types.ts). */
const ADDRESS_OF_PART: Readonly<Record<string, number>> = { iis2iclx: 0x6a, ads1115: 0x48 };

/** An emulated board as a port like any other. */
export function emulatedPorts(rig: Rig): BoardPort[] {
  return rig.boards.map((board) => ({
    name: portName(board.name),
    baudRates: [OUR_BAUD_RATE],
    open: () => board.open(),
  }));
}

function portName(board: BoardName): string {
  return `emulated ${board}`;
}

/** What stands on the emulated boards, with the certificates of the simulator's own workshop. */
export function emulatedOutfit(seed: number, uncalibrated: readonly string[]): StationOutfit {
  return {
    mountings: marramMountings(),
    certificates: sineBarCertificates(seed, uncalibrated),
    expected(_board, port) {
      const name = BOARD_NAMES.find((candidate) => portName(candidate) === port);
      return name === undefined ? null : chipsOf(name);
    },
    nameOf: (port) => port.replaceAll(/[^0-9A-Za-z-]/g, '-').slice(0, 40),
  };
}

/** The chips whose columns make the layout of a board, in its order. */
function chipsOf(name: BoardName): ExpectedChip[] {
  const chips: ExpectedChip[] = [];
  for (const { instrument, part } of BOARD_CHANNELS[name]) {
    if (chips.some((chip) => chip.instrument === instrument)) continue;
    const driver = driverOf(part);
    const address = ADDRESS_OF_PART[part];
    if (driver === undefined || address === undefined) throw new RangeError(`no ${part} here`);
    chips.push({ instrument, driver, address });
  }
  return chips;
}

/** The boards' EEPROMs in the data folder, so that an emulated board keeps its identity. */
export async function readEeproms(folder: string): Promise<Partial<Record<BoardName, Uint8Array>>> {
  const images: Partial<Record<BoardName, Uint8Array>> = {};
  for (const name of BOARD_NAMES) {
    try {
      images[name] = await readFile(eepromFile(folder, name));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    }
  }
  return images;
}

/** Keeps the images in the order they came, one write at a time. */
export function eepromKeeper(folder: string): (name: BoardName, image: Uint8Array) => void {
  let last: Promise<void> = Promise.resolve();
  return (name, image) => {
    last = last.then(() => writeWhole(eepromFile(folder, name), image)).catch(() => undefined);
  };
}

function eepromFile(folder: string, name: BoardName): string {
  return path.join(folder, `eeprom-${name}.bin`);
}

/** The simulated vessel as the receiver meets her: what she declares, is told, and says of herself. */
export class SimulatedVesselLink {
  readonly #rig: Rig;
  readonly #seed: number;
  #paceAsked: number;
  #disturbances: DisturbanceSwitches = ALL_QUIET;

  constructor(rig: Rig, settings: { seed: number; pace: number }) {
    this.#rig = rig;
    this.#seed = settings.seed;
    this.#paceAsked = settings.pace;
  }

  declare(): NonNullable<Hello['simulated']> {
    return {
      simulation: {
        seed: this.#seed,
        paceAsked: this.#paceAsked,
        paceHeld: this.#rig.status().paceHeld,
        disturbances: this.#disturbances,
        truth: this.#rig.vessel().truth,
      },
      test: marramTest(),
      survey: marramSurvey(this.#seed),
    };
  }

  obey({ state, weights, disturbances, pace, sway }: Simulate): void {
    this.#disturbances = disturbances;
    this.#paceAsked = pace;
    this.#rig.setPace(pace);
    this.#rig.command({ state, weights, disturbances, sway: sway === true });
  }

  status(): SimulationStatus {
    const { carrying, settledState } = this.#rig.vessel();
    return {
      type: 'simulation-status',
      stationS: this.#rig.clock.monotonicS(),
      paceAsked: this.#paceAsked,
      paceHeld: this.#rig.status().paceHeld,
      disturbances: this.#disturbances,
      carrying,
      settledState,
    };
  }
}
