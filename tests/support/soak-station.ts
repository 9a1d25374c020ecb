import { ALL_QUIET } from '#device/emulated/simulated-world.ts';
import { machineClock } from '#device/machine-clock.ts';
import { Station } from '#device/station.ts';
import {
  type FromSoakStation,
  MOST_PACE_ASKED,
  type SoakOpening,
  type ToSoakStation,
} from './soak-messages.ts';
import { SoakStreams } from './soak-streams.ts';

/**
 * A program: a station without ports, in a process of its own so that its memory can be read.
 * Scans come from the day over the process channel, and with them the station's time.
 */
const STATUS_EVERY_MS = 100;
const FINISH_WITHIN_MS = 60_000;
const HELD_EVERY_MS = 50;

const wallOfZeroMs = Date.now();
let nowS = 0;
const clock = { monotonicS: () => nowS, wallMs: () => wallOfZeroMs + nowS * 1000 };

function say(message: FromSoakStation): void {
  process.send?.(message);
}

/** Virtual seconds to one of the wall, over the last second or so. */
class PaceHeld {
  #fromMs = performance.now();
  #fromS = 0;
  #value = 1;

  look(): number {
    const ms = performance.now();
    if (ms - this.#fromMs < 1000) return this.#value;
    this.#value = (nowS - this.#fromS) / ((ms - this.#fromMs) / 1000);
    this.#fromMs = ms;
    this.#fromS = nowS;
    return this.#value;
  }
}

class SoakStation {
  readonly #station: Station;
  readonly #streams: SoakStreams;
  readonly #pace = new PaceHeld();
  readonly #timers: NodeJS.Timeout[];
  #carrying: readonly string[] = [];
  #settledState = 0;

  private constructor(station: Station, streams: SoakStreams) {
    this.#station = station;
    this.#streams = streams;
    this.#timers = [
      setInterval(() => this.#status(), STATUS_EVERY_MS),
      setInterval(() => say({ type: 'held', bytes: station.spool.heldBytes }), HELD_EVERY_MS),
    ];
  }

  static async open(opening: SoakOpening): Promise<SoakStation> {
    const { dataFolder, receiverUrl, code, mountings, certificates, simulated } = opening;
    const station = await Station.open({
      dataFolder,
      receiverUrl,
      pairing: { code, pin: null },
      clocks: { station: clock, machine: machineClock },
      report: (event) => {
        if (event.event === 'fault') say({ type: 'fault', code: event.code, found: event.found });
      },
      outfit: { mountings, certificates, expected: () => [], nameOf: (port) => port },
      simulated: () => simulated,
      simulate: (order) => say({ type: 'simulate', order }),
    });
    const { boards, periodUs } = opening;
    return new SoakStation(station, await SoakStreams.open(station.services, boards, periodUs));
  }

  take(message: Extract<ToSoakStation, { type: 'scans' }>): void {
    for (const scan of message.scans) {
      nowS = scan.arrivedS;
      const lost = this.#streams.add(scan);
      if (lost !== null) say({ type: 'fault', code: 'scan-lost', found: lost });
    }
    this.#carrying = message.carrying;
    this.#settledState = message.settledState;
    say({ type: 'taken', untilS: message.untilS });
  }

  unplug(board: string): void {
    this.#streams.unplug(board);
  }

  async finish(): Promise<void> {
    this.#streams.close();
    await this.#station.stop(FINISH_WITHIN_MS);
    for (const timer of this.#timers) clearInterval(timer);
    // What is acknowledged has left the spool.
    const unsent = this.#station.spool.streams().length;
    say({ type: 'finished', samples: this.#streams.samples, unsent });
  }

  #status(): void {
    this.#station.link.sendNow({
      type: 'simulation-status',
      stationS: nowS,
      paceAsked: MOST_PACE_ASKED,
      paceHeld: this.#pace.look(),
      disturbances: ALL_QUIET,
      carrying: [...this.#carrying],
      settledState: this.#settledState,
    });
  }
}

let station: SoakStation | null = null;

async function hear(message: ToSoakStation): Promise<void> {
  if (message.type === 'open') {
    station = await SoakStation.open(message);
    say({ type: 'ready' });
  } else if (message.type === 'scans') station?.take(message);
  else if (message.type === 'unplugged') station?.unplug(message.board);
  else {
    await station?.finish();
    process.disconnect();
  }
}

process.on('message', (message: ToSoakStation) => void hear(message));
