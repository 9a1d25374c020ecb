import type { Clock } from '#core/time/clock.ts';
import { EmulatedTransport } from './emulated-transport.ts';
import {
  BOARD_NAMES,
  type BoardName,
  type BoardStatus,
  type BusFault,
  MOST_CLOCK_ERROR_PPM,
  type RigBoard,
  type RigCommand,
  type RigSettings,
} from './rig-types.ts';
import { boardClockErrorPpm } from './sample-entrance.ts';
import { createSimulatedWorld } from './simulated-world.ts';
import type { Act, SliceResult, TimedCommand } from './slice.ts';
import { MOST_WAITING_BYTES } from './uart.ts';

/**
 * Commands take effect this long after the last second given to a board: a board may have looked
 * at the world a few cycles beyond its slice's end.
 */
const COMMAND_AHEAD_S = 0.001;

interface Port {
  readonly clockErrorPpm: number;
  plugged: boolean;
  transport: EmulatedTransport | undefined;
  /** The first slice whose bytes the transport may see: it opened before that one began. */
  firstSlice: number;
  acts: Act[];
  writtenBytes: number;
  heardBytes: number;
}

/** What both rigs share: ports and transports, acts waiting for the next slice, the clock. */
export class RigCore {
  readonly boards: readonly RigBoard[];
  readonly clock: Clock;
  /** Slices begun so far; the acts of now belong to this number. */
  slice = 0;
  /** End of the slice begun last: boards have lived, or are about to, until here. */
  horizonS = 0;
  readonly #ports: Record<BoardName, Port>;
  readonly #onEeprom: RigSettings['onEeprom'];
  readonly #ownWorld: ReturnType<typeof createSimulatedWorld>;
  #commands: TimedCommand[] = [];
  #nowS = 0;

  constructor(settings: RigSettings) {
    const startWallMs = settings.wall.wallMs();
    this.clock = {
      monotonicS: () => this.#nowS,
      wallMs: () => startWallMs + 1000 * this.#nowS,
    };
    this.#onEeprom = settings.onEeprom;
    this.#ownWorld = createSimulatedWorld({ seed: settings.seed });
    this.#ports = { fore: newPort(settings, 'fore'), aft: newPort(settings, 'aft') };
    this.boards = BOARD_NAMES.map((name) => ({ name, open: () => this.#open(name) }));
  }

  get nowS(): number {
    return this.#nowS;
  }

  clockErrorPpm(name: BoardName): number {
    return this.#ports[name].clockErrorPpm;
  }

  /** Acts and commands for the slice that begins now, up to `untilS`. */
  beginSlice(untilS: number): { acts: Record<BoardName, Act[]>; commands: TimedCommand[] } {
    const acts = { fore: this.#ports.fore.acts, aft: this.#ports.aft.acts };
    const commands = this.#commands;
    this.#ports.fore.acts = [];
    this.#ports.aft.acts = [];
    this.#commands = [];
    this.horizonS = untilS;
    this.slice += 1;
    return { acts, commands };
  }

  /** Tells what the boards said in slice number `slice`, in order of time, the clock going along. */
  endSlice(slice: number, results: Record<BoardName, SliceResult>): void {
    const told = BOARD_NAMES.flatMap((name) =>
      results[name].outgoing.map((outgoing) => ({ name, ...outgoing })),
    ).sort((one, other) => one.atS - other.atS);
    for (const name of BOARD_NAMES) {
      const { eeprom, heardBytes } = results[name];
      this.#ports[name].heardBytes = heardBytes;
      if (eeprom !== undefined) this.#onEeprom?.(name, eeprom);
    }
    for (const { name, atS, bytes } of told) {
      this.#nowS = Math.max(this.#nowS, atS);
      const port = this.#ports[name];
      if (slice >= port.firstSlice) port.transport?.deliver(bytes);
    }
    this.#nowS = Math.max(this.#nowS, results.fore.untilS);
  }

  command(command: RigCommand): number {
    const atS = this.horizonS + COMMAND_AHEAD_S;
    const timed = { atS, command: structuredClone(command) };
    // First the one at hand: an order it refuses must not reach the threads.
    this.#ownWorld.command(timed.atS, timed.command);
    this.#commands.push(timed);
    return atS;
  }

  vessel(): ReturnType<ReturnType<typeof createSimulatedWorld>['status']> {
    return this.#ownWorld.status(this.#nowS);
  }

  disturbBus(name: BoardName, fault: BusFault): void {
    this.#ports[name].acts.push({ kind: 'bus', fault });
  }

  unplug(name: BoardName): void {
    const port = this.#ports[name];
    if (!port.plugged) return;
    port.plugged = false;
    port.acts.push({ kind: 'power', on: false });
    port.transport?.disconnect();
  }

  replug(name: BoardName): void {
    const port = this.#ports[name];
    if (port.plugged) return;
    port.plugged = true;
    port.acts.push({ kind: 'power', on: true });
  }

  boardStatus(): BoardStatus[] {
    return BOARD_NAMES.map((name) => {
      const { plugged, transport, clockErrorPpm } = this.#ports[name];
      return { name, plugged, open: transport !== undefined, clockErrorPpm };
    });
  }

  closeAll(): void {
    for (const name of BOARD_NAMES) this.#ports[name].transport?.close();
  }

  #open(name: BoardName): EmulatedTransport {
    const port = this.#ports[name];
    if (!port.plugged) return EmulatedTransport.refused(`No such device, cannot open ${name}`);
    if (port.transport) return EmulatedTransport.refused(`Cannot lock port ${name}`);
    const transport = new EmulatedTransport({
      receive: (bytes) => {
        if (port.writtenBytes + bytes.length - port.heardBytes > MOST_WAITING_BYTES) {
          throw new RangeError(`more than ${MOST_WAITING_BYTES} bytes wait for the serial line`);
        }
        port.writtenBytes += bytes.length;
        port.acts.push({ kind: 'bytes', bytes });
      },
      closed: () => {
        port.transport = undefined;
      },
    });
    port.transport = transport;
    port.firstSlice = this.slice + 1;
    port.acts.push({ kind: 'reset' });
    return transport;
  }
}

function newPort(settings: RigSettings, name: BoardName): Port {
  const clockErrorPpm = settings.clockErrorPpm?.[name] ?? boardClockErrorPpm(settings.seed, name);
  if (!(Math.abs(clockErrorPpm) <= MOST_CLOCK_ERROR_PPM)) {
    throw new RangeError(`a clock error of ${clockErrorPpm} ppm is over the limit`);
  }
  return {
    clockErrorPpm,
    plugged: true,
    transport: undefined,
    firstSlice: 0,
    acts: [],
    writtenBytes: 0,
    heardBytes: 0,
  };
}
