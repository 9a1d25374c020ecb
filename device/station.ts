import { randomBytes } from 'node:crypto';
import path from 'node:path';
import { FAULTS, Fault } from '#core/fault/fault.ts';
import type { Certificate, Mounting } from '#core/sample/certificate.ts';
import { MOST_CHANNELS } from '#core/sample/stream-item.ts';
import {
  type Hello,
  LINK_VERSION,
  type Simulate,
  stationProofText,
} from '#core/wire/link-message.ts';
import type { StationServices } from './board-session.ts';
import { ClockJumps } from './clock-jumps.ts';
import { makeDataFolder } from './data-folder.ts';
import type { Report } from './events.ts';
import { StationIdentity } from './identity.ts';
import { Link } from './link.ts';
import { LinkSender } from './link-sender.ts';
import type { Clocks } from './machine-clock.ts';
import type { ExpectedChip } from './outfit.ts';
import { boardConnect, PortKeeper, serialConnect } from './port-keeper.ts';
import { ReceiverAccess } from './receiver-access.ts';
import { RoomWatch } from './room-watch.ts';
import type { SerialLine } from './serial-outfit.ts';
import { Spool } from './spool.ts';
import { lockStation } from './station-lock.ts';
import { type BoardPort, serialLinePort } from './transport.ts';

/** What is written is synced in groups, and sent after. */
const FLUSH_MS = 50;
/** Two days of three boards; the disk of a laptop has that. */
export const MOST_SPOOL_BYTES = 1024 * 1024 * 1024;

/** Many times the roll, and easily borne by bus and line. */
const USUAL_SCAN_HZ = 50;

/** What stands on the boards, however it is known. */
export interface StationOutfit {
  readonly mountings: readonly Mounting[];
  readonly certificates: readonly Certificate[];
  /** Chips of a board; null: look for them. */
  expected(board: string, port: string): ExpectedChip[] | null;
  /** Instruments that speak for themselves on a port; null: a board is looked for. Missing: there are none. */
  lineOf?(port: string): SerialLine | null;
  /** What to call a board without our firmware. */
  nameOf(port: string): string;
}

export interface StationSettings {
  readonly dataFolder: string;
  readonly receiverUrl: string;
  /** Code of an invitation to the receiver, and the key its TLS certificate must have; null: none given. */
  readonly pairing: { readonly code: string | null; readonly pin: string | null };
  readonly clocks: Clocks;
  readonly report: Report;
  readonly outfit: StationOutfit;
  readonly mostSpoolBytes?: number;
  /** Scans a second of boards with our firmware, 10 to 200. */
  readonly scanHz?: number;
  /** Machine seconds after which a silent receiver is given up. */
  readonly silentAfterS?: number;
  /** Only a simulated vessel has these. */
  readonly simulated?: () => Hello['simulated'];
  readonly simulate?: (order: Simulate) => void;
}

/** The board side of one machine: its boards, its spool, its link to the receiver. */
export class Station {
  readonly identity: StationIdentity;
  readonly spool: Spool;
  readonly link: Link;
  readonly #settings: StationSettings;
  readonly #sender: LinkSender;
  /** What streams are written with; boards not on a port use it too. */
  readonly services: StationServices;
  readonly #keepers = new Map<string, PortKeeper>();
  readonly #flusher: NodeJS.Timeout;
  readonly #unlock: () => Promise<void>;
  readonly #room = new RoomWatch();
  #damageTold = '';

  private constructor(
    settings: StationSettings,
    parts: {
      identity: StationIdentity;
      spool: Spool;
      access: ReceiverAccess;
      unlock: () => Promise<void>;
    },
  ) {
    const { clocks, report, outfit } = settings;
    this.#settings = settings;
    this.identity = parts.identity;
    this.spool = parts.spool;
    this.#unlock = parts.unlock;
    const run = randomBytes(6).toString('hex');
    this.services = {
      station: this.identity.station,
      run,
      clocks,
      jumps: new ClockJumps(clocks.station),
      sink: this.spool,
      report,
      scanPeriodUs: Math.round(1e6 / (settings.scanHz ?? USUAL_SCAN_HZ)),
      nextStream: (board) => this.identity.nextStream(board),
      expected: outfit.expected,
      nameOf: outfit.nameOf,
    };
    this.#sender = new LinkSender({
      spool: this.spool,
      nowMs: () => clocks.machine.monotonicS() * 1000,
      renew: (stream) => this.#renew(stream),
      damaged: (error) => this.#damaged(error),
    });
    this.link = new Link({
      url: settings.receiverUrl,
      clocks,
      report,
      sender: this.#sender,
      access: parts.access,
      hello: (challenge) => this.#hello(run, challenge),
      ...(settings.silentAfterS === undefined ? {} : { silentAfterS: settings.silentAfterS }),
      simulate: (order) => settings.simulate?.(order),
      welcomed: () => this.#tellRoom(),
    });
    this.#flusher = setInterval(() => void this.#flush(), FLUSH_MS);
  }

  /** Opens identity and spool and begins to reach for the receiver. Throws `station-folder`. */
  static async open(settings: StationSettings): Promise<Station> {
    const { dataFolder, report } = settings;
    await makeDataFolder(dataFolder);
    const unlock = await lockStation(dataFolder);
    const identity = await StationIdentity.open(dataFolder);
    const access = await ReceiverAccess.open({
      folder: dataFolder,
      receiver: new URL(settings.receiverUrl).origin,
      ...settings.pairing,
    });
    const spool = await Spool.open({
      folder: path.join(dataFolder, 'spool'),
      station: identity.station,
      mostBytes: settings.mostSpoolBytes ?? MOST_SPOOL_BYTES,
    });
    report({ event: 'station', station: identity.station, data: dataFolder });
    for (const { file, bytes } of spool.damage) {
      report({
        event: 'fault',
        ...new Fault('spool-damaged', file, `${bytes} bytes cut off or set aside`).report,
      });
    }
    const station = new Station(settings, { identity, spool, access, unlock });
    station.link.start();
    return station;
  }

  /** Looks after a port from now on; a second call for the same name does nothing. */
  keep(port: BoardPort): void {
    if (this.#keepers.has(port.name)) return;
    const line = this.#settings.outfit.lineOf?.(port.name) ?? null;
    const connect =
      line === null
        ? boardConnect(port, this.services)
        : serialConnect(serialLinePort(port.name, line), line, this.services);
    const keeper = new PortKeeper(port, connect, this.#settings.report);
    this.#keepers.set(port.name, keeper);
    keeper.start();
  }

  /** Closes streams and ports, gives the link some seconds for what is left, and lets go of everything. */
  async stop(waitMs: number): Promise<void> {
    await Promise.all([...this.#keepers.values()].map((keeper) => keeper.stop()));
    const untilS = this.#settings.clocks.machine.monotonicS() + waitMs / 1000;
    await this.#flush();
    while (!this.#sender.done && this.#settings.clocks.machine.monotonicS() < untilS) {
      await new Promise((resolve) => setTimeout(resolve, FLUSH_MS));
    }
    clearInterval(this.#flusher);
    this.link.stop();
    await this.#unlock();
  }

  #hello(run: string, challenge: string): Hello {
    const { outfit, simulated } = this.#settings;
    const { station } = this.identity;
    return {
      type: 'hello',
      version: LINK_VERSION,
      station,
      publicKey: this.identity.publicKey,
      proof: this.identity.sign(stationProofText(challenge, station, run)),
      run,
      mountings: outfit.mountings.slice(0, MOST_CHANNELS),
      certificates: outfit.certificates.slice(0, MOST_CHANNELS),
      simulated: simulated?.() ?? null,
    };
  }

  async #flush(): Promise<void> {
    await this.spool.flush();
    this.#sender.pump();
    const { clocks, report } = this.#settings;
    if (!this.#room.look(this.spool.refuses, clocks.machine.monotonicS())) return;
    const { told } = this.#room;
    if (told !== null) report({ event: 'fault', ...told.report });
    this.#tellRoom();
  }

  /** Beside the stream, for a full spool has no room for it. */
  #tellRoom(): void {
    const { told } = this.#room;
    const refuses = told === null ? null : `${FAULTS[told.code].means}: ${told.report.found}`;
    this.link.sendNow({ type: 'station-disk', refuses: refuses?.slice(0, 300) ?? null });
  }

  #renew(stream: string): void {
    for (const keeper of this.#keepers.values()) if (keeper.stream === stream) keeper.renew();
  }

  /** What the spool cannot read back is told; other streams go on. */
  #damaged(error: unknown): void {
    const fault =
      error instanceof Fault ? error : new Fault('spool-damaged', 'spool', String(error));
    if (fault.message === this.#damageTold) return;
    this.#damageTold = fault.message;
    this.#settings.report({ event: 'fault', ...fault.report });
  }
}
