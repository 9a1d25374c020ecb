import { Fault } from '#core/fault/fault.ts';
import { isSigned } from '#core/record/signed-by-key.ts';
import type { Certificate } from '#core/sample/certificate.ts';
import type { StreamItem } from '#core/sample/stream-item.ts';
import { entryRefusal } from '#core/session/entry-refusal.ts';
import { replacementRefusal } from '#core/session/fold-certificate.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Clock } from '#core/time/clock.ts';
import type { FromStation, Hello, SimulationStatus, StationDisk } from '#core/wire/link-message.ts';
import { LINK_VERSION, stationProofText } from '#core/wire/link-message.ts';
import { assumedMountings } from './assumed-mounting.ts';
import type { LineFollowers } from './line-followers.ts';
import type { PacedClock } from './paced-clock.ts';
import type { RecordFile, WhoWrites } from './record-file.ts';
import type { SimulatedVessel } from './simulated-vessel.ts';
import { StationClocks } from './station-clocks.ts';
import { type LinkOwner, type LinkSocket, StationLink } from './station-link.ts';

const RECEIVER: WhoWrites = { author: 'receiver', role: 'receiver' };
const SIMULATOR: WhoWrites = { author: 'simulator', role: 'simulator' };
const MOST_STREAMS_WELCOMED = 10_000;

export interface StationsSettings {
  readonly record: RecordFile;
  readonly followers: LineFollowers;
  readonly machine: Clock;
  readonly vessel: SimulatedVessel;
  /** The clock a simulated vessel steers; null in a test with real boards. */
  readonly paced: PacedClock | null;
  /** Holds a station to the key it first came with. Throws `station-not-the-one`. */
  readonly holdStation: (station: string, publicKey: string) => void;
  readonly mostRefusals?: number | undefined;
  /** Asks whether a silent connection is still alive. */
  readonly probe: (link: StationLink) => void;
}

/** The board sides: who is connected, what they bring into the record, and what they are answered. */
export class Stations implements LinkOwner {
  readonly #settings: StationsSettings;
  readonly #links = new Map<string, StationLink>();
  readonly #clocks: StationClocks;
  #waiting = false;

  constructor(settings: StationsSettings) {
    this.#settings = settings;
    this.#clocks = new StationClocks(settings);
  }

  /** `challenge`: what this connection was admitted with, and its greeting must have signed. */
  open(socket: LinkSocket, challenge: string): StationLink {
    const { mostRefusals } = this.#settings;
    return new StationLink(socket, this, { challenge, mostRefusals });
  }

  closed(link: StationLink): void {
    const station = link.station?.station;
    if (station === undefined || this.#links.get(station) !== link) return;
    this.#links.delete(station);
    if (link.station?.simulated != null) this.#settings.vessel.disconnect();
  }

  /** Every station the record knows of, connected or not, and how well its clock is paired. */
  list(): { station: string; connected: boolean; uncertaintyS: number | null }[] {
    const names = new Set(
      this.#settings.followers.session.streams.map(({ stream }) => stationOf(stream)),
    );
    for (const station of this.#links.keys()) names.add(station);
    return [...names].map((station) => ({
      station,
      connected: this.#links.has(station),
      uncertaintyS: this.#settings.followers.timeMap.uncertaintyOf(station),
    }));
  }

  /** Lines under this number are on disk: each station may forget what it sent of them. */
  committed(lines: number): void {
    for (const { stream, number } of this.#settings.followers.ledger.commit(lines))
      this.#links.get(stationOf(stream))?.send({ type: 'acknowledged', stream, number });
    this.#letWait();
  }

  hello(link: StationLink, hello: Hello): void {
    const { record, followers, vessel } = this.#settings;
    requireProof(link.challenge, hello);
    this.#settings.holdStation(hello.station, hello.publicKey);
    const other = this.#links.get(hello.station);
    if (other !== undefined && other.station?.run !== hello.run) {
      this.#settings.probe(other);
      throw new Fault('station-twice', hello.station, 'one is connected already');
    }
    if (hello.simulated !== null) this.#openSimulated(hello.simulated);
    this.#instruments(hello);
    this.#links.set(hello.station, link);
    // The same start of the same program: its old connection is dead, whatever the socket thinks.
    other?.close(1000, 'a newer connection took over');
    this.#clocks.resume(link, hello);
    link.send({
      type: 'welcome',
      version: LINK_VERSION,
      record: record.id,
      acknowledged: followers.ledger.committedOf(hello.station).slice(-MOST_STREAMS_WELCOMED),
    });
    if (hello.simulated === null) return;
    vessel.connect((order) => link.send(order));
    vessel.order(followers.session);
  }

  item(link: StationLink, item: StreamItem, itemText: string): void {
    const { record, followers } = this.#settings;
    if (followers.ledger.check(item, itemText) === 'known') {
      const number = followers.ledger.committedNumber(item.stream);
      if (number !== null && number >= item.number)
        link.send({ type: 'acknowledged', stream: item.stream, number });
      return;
    }
    const author = link.station?.station ?? stationOf(item.stream);
    record.appendText(item.type, item, itemText, { author, role: 'device' });
    if (item.type === 'stream-opened')
      for (const mounting of assumedMountings(item, followers.session.mountings))
        record.append('mounting', mounting, RECEIVER);
    this.#letWait();
  }

  message(link: StationLink, message: Exclude<FromStation, Hello>): void {
    if (message.type === 'exchange') this.#clocks.exchange(link, message);
    else if (message.type === 'station-disk') this.#stationDisk(link, message);
    else this.#simulationStatus(link, message);
  }

  /** A line where it changed: the same again, as at each new connection, is none. */
  #stationDisk(link: StationLink, { refuses }: StationDisk): void {
    const { record, followers } = this.#settings;
    const station = link.station?.station ?? null;
    const stood = followers.session.laptop.find(
      ({ state }) => state.matter === 'disk' && state.station === station,
    );
    if (followers.session.closed !== null || (stood === undefined) === (refuses === null)) return;
    record.append(
      'laptop-state',
      {
        matter: 'disk',
        station,
        severity: refuses === null ? 'well' : 'notice',
        found: refuses ?? 'the board side has room for samples again',
        sinceS: record.clock.monotonicS(),
      },
      RECEIVER,
    );
  }

  #simulationStatus(link: StationLink, status: SimulationStatus): void {
    const { record, followers, vessel } = this.#settings;
    if (link.station?.simulated == null)
      throw new Fault('station-not-said', status.type, 'not a simulated vessel');
    this.#clocks.steer(link.station, status);
    const changed = vessel.heard(status, followers.session.simulation);
    if (changed !== null) record.append('simulation', changed, SIMULATOR);
  }

  /** A simulated vessel opens the test of an empty record, and joins only a record that is hers. */
  #openSimulated(simulated: NonNullable<Hello['simulated']>): void {
    const { record, followers } = this.#settings;
    const session: SessionState = followers.session;
    if (this.#settings.paced === null)
      throw new Fault('simulation-other', 'hello', 'this receiver keeps real time (see --paced)');
    if (session.test === null) {
      if (simulated.test.mode === 'test')
        throw new Fault('simulation-other', 'hello', 'a simulated vessel with a real test');
      record.append('test-opened', simulated.test, SIMULATOR);
      record.append('simulation', simulated.simulation, SIMULATOR);
      for (const entry of simulated.survey ?? []) {
        const refusal = entryRefusal(followers.session, entry);
        if (refusal !== null) throw refusal;
        record.append('entry', entry, SIMULATOR);
      }
    } else if (
      session.test.test !== simulated.test.test ||
      session.simulation?.seed !== simulated.simulation.seed
    )
      throw new Fault(
        'simulation-other',
        'hello',
        `${simulated.test.test}, seed ${simulated.simulation.seed}`,
      );
  }

  /** Mountings and certificates become lines where they say something new. */
  #instruments(hello: Hello): void {
    const { record, followers } = this.#settings;
    const who: WhoWrites =
      hello.simulated === null ? { author: hello.station, role: 'device' } : SIMULATOR;
    for (const mounting of hello.mountings)
      if (!holds(followers.session.mountings, mounting)) record.append('mounting', mounting, who);
    for (const certificate of hello.certificates) this.#certificate(certificate, who);
  }

  /**
   * The first of an instrument as it is; another under a new number takes its place with a reason.
   * One that was replaced here is not brought back by a board side that still has the old file.
   */
  #certificate(certificate: Certificate, who: WhoWrites): void {
    const { record, followers } = this.#settings;
    const { certificates } = followers.session;
    if (holds(certificates, certificate)) return;
    if (!certificates.some(({ instrument }) => instrument === certificate.instrument)) {
      record.append('certificate', certificate, who);
      return;
    }
    if (replacementRefusal(followers.session, certificate) !== null) return;
    const reason = 'the board side came with another certificate';
    record.append('certificate-replaced', { certificate, reason }, who);
  }

  #letWait(): void {
    if (this.#waiting === this.#settings.record.full) return;
    this.#waiting = this.#settings.record.full;
    for (const link of this.#links.values()) link.setWaiting(this.#waiting);
  }
}

function holds<T>(entries: readonly T[], entry: T): boolean {
  const text = JSON.stringify(entry);
  return entries.some((held) => JSON.stringify(held) === text);
}

/** Whoever greets as a station has its key, and greets now: no recorded greeting opens again. */
function requireProof(challenge: string, { station, run, publicKey, proof }: Hello): void {
  if (!isSigned(stationProofText(challenge, station, run), proof, publicKey))
    throw new Fault('station-not-the-one', station, 'its greeting is not signed by its key');
}

function stationOf(stream: string): string {
  return stream.slice(0, stream.indexOf('/'));
}
