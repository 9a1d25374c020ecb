import type { WebSocket } from 'ws';
import type { TestOpened } from '#core/record/line.ts';
import type { LineRead } from '#core/record/read-line.ts';
import type { SessionState } from '#core/session/session.ts';
import type { Clock } from '#core/time/clock.ts';
import type { LivePicture } from '#core/wire/screen-message.ts';
import { Access } from './access/access.ts';
import { recordFiles } from './access/record-files.ts';
import type { TlsCertificate } from './access/tls-certificate.ts';
import { Conduct } from './conduct.ts';
import { DayReductions } from './day-reductions.ts';
import { probeSocket } from './heartbeat.ts';
import { comeIn } from './inside.ts';
import { LineFollowers } from './line-followers.ts';
import { LivePath } from './live-path.ts';
import { LoopDelay } from './loop-delay.ts';
import { clockStartOf, continuedClock } from './machine-clock.ts';
import { PacedClock } from './paced-clock.ts';
import { livePicture } from './picture.ts';
import { RecordFile } from './record-file.ts';
import { checkHullInWorker, reduceInWorker } from './reduction-link.ts';
import { Rejections } from './rejections.ts';
import { RollConduct } from './roll-conduct.ts';
import { lookInWorker } from './roll-link.ts';
import { quickOnes, RollSamples } from './roll-samples.ts';
import { ScreenHub } from './screen-hub.ts';
import { type RunningServer, startServer } from './server.ts';
import { SimulatedVessel } from './simulated-vessel.ts';
import type { StationLink } from './station-link.ts';
import { Stations } from './stations.ts';
import { StopTargets } from './stop-target.ts';

const PICTURE_EVERY_MS = 100;

export interface DockSettings {
  readonly recordPath: string;
  readonly port: number;
  readonly version: string;
  readonly screenFolder: string;
  readonly machine: Clock;
  /** Follow the clock of a simulated vessel. */
  readonly paced: boolean;
  /** Opens the test of an empty record; null where a simulated vessel brings hers, or it is open. */
  readonly test: TestOpened | null;
  readonly estimator: string;
  /** Folder of the receiver's own files: who may come in, and its TLS certificate. */
  readonly folder: string;
  /** Reachable from other machines on the network, not from this one only. */
  readonly lan: boolean;
  /** TLS for every role, beside plain http. */
  readonly tls: TlsCertificate | null;
  /** Seconds after which a silent connection is given up. */
  readonly silentAfterS?: number;
  /** How often one connection may be refused before it is let go; a test raises it. */
  readonly mostRefusals?: number;
  /** Hears what does not stop the receiver. */
  readonly warn: (error: Error) => void;
}

export interface Dock {
  readonly record: RecordFile;
  readonly port: number;
  readonly tlsPort: number | null;
  readonly tls: TlsCertificate | null;
  readonly access: Access;
  readonly paced: boolean;
  /** Wall time of the last line the record held when it was opened; null: it was new. */
  readonly openedAtWallMs: number | null;
  readonly session: () => SessionState;
  readonly stations: () => readonly { station: string; connected: boolean }[];
  close(): Promise<void>;
}

/** The receiver at the dockside, whole: record, board sides, live path, conduct and screens. */
export async function openDock(settings: DockSettings): Promise<Dock> {
  const { machine } = settings;
  const followers = new LineFollowers();
  const live = new LivePath(followers, machine);
  let paced: PacedClock | null = null;
  let openedAtWallMs: number | null = null;
  const record = await RecordFile.open({
    path: settings.recordPath,
    program: `heelwright ${settings.version}`,
    follow: (read, bytes) => {
      followers.follow(read, bytes);
      followLive(live, read, settings.warn);
    },
    clock: (last) => {
      openedAtWallMs = clockStartOf(last)?.wallMs ?? null;
      if (!settings.paced) return continuedClock(machine, clockStartOf(last));
      paced = new PacedClock(machine, clockStartOf(last));
      return paced;
    },
  });
  if (settings.test !== null && followers.session.test === null)
    record.append('test-opened', settings.test, { author: 'receiver', role: 'receiver' });
  live.start(record.clock, (body) => {
    record.append('watching', body, { author: 'receiver', role: 'receiver' });
  });
  try {
    return await wire({ settings, record, followers, live, paced, openedAtWallMs });
  } catch (error) {
    await live.close();
    await record.close();
    throw error;
  }
}

/** Whatever goes wrong in showing a line must never keep it from being recorded. */
function followLive(live: LivePath, read: LineRead, warn: (error: Error) => void): void {
  try {
    live.follow(read);
  } catch (error) {
    warn(error instanceof Error ? error : new Error(String(error)));
  }
}

interface DockParts {
  readonly settings: DockSettings;
  readonly record: RecordFile;
  readonly followers: LineFollowers;
  readonly live: LivePath;
  readonly paced: PacedClock | null;
  readonly openedAtWallMs: number | null;
}

async function wire(parts: DockParts): Promise<Dock> {
  const { settings, record, followers, live, paced } = parts;
  const vessel = new SimulatedVessel(settings.machine);
  const socketOf = new WeakMap<StationLink, WebSocket>();
  const stations = new Stations({
    record,
    followers,
    machine: settings.machine,
    vessel,
    paced,
    mostRefusals: settings.mostRefusals,
    holdStation: (station, publicKey) => access.tokens.holdStation(station, publicKey),
    probe: (link) => {
      const socket = socketOf.get(link);
      if (socket !== undefined) probeSocket(socket);
    },
  });
  const session = () => followers.session;
  const takeReading = () => live.takeReading();
  const reductions = new DayReductions(session, reduceInWorker);
  const stopTargets = new StopTargets(record, session);
  const rolled = new RollSamples();
  live.onSmoothed = (heel) => rolled.add(heel);
  const roll = new RollConduct({
    record,
    session,
    taken: () => ({ startedLines: live.startedLines, afterLines: session().lines }),
    look: (task) => lookInWorker({ ...task, instruments: rolled.of(quickOnes(session())) }),
  });
  const conduct = new Conduct({
    record,
    session,
    vessel,
    roll,
    timeUncertaintyS: () => followers.timeMap.timeUncertaintyS,
    temperatureC: (instrument) => live.traces.temperatureC(instrument),
    takeReading,
    checkHull: checkHullInWorker,
    estimator: settings.estimator,
    headOf: (lines) =>
      lines === record.saved.lines ? record.saved.head : followers.heads.of(lines),
  });
  const access: Access = new Access({
    folder: settings.folder,
    tls: settings.tls,
    wall: () => new Date(settings.machine.wallMs()).toISOString(),
    nowS: () => settings.machine.monotonicS(),
    onAdmitted: (socket, by, way) =>
      comeIn(
        { record, followers, stations, screens, socketOf, warn: settings.warn },
        socket,
        by,
        way,
      ),
    onPeople: () => screens.tell('architect', JSON.stringify(access.people())),
    onWithdrawn: (person, role, name) =>
      record.append(
        'access-withdrawn',
        { person, role, name },
        { author: 'receiver', role: 'receiver' },
      ),
  });
  const screens = new ScreenHub(session, {
    act: async (act, person) => {
      await conduct.act(act, person);
      await record.whenSaved();
    },
    access: (request) => access.request(request),
    mostRefusals: settings.mostRefusals,
    reduction: () => reductions.told,
  });
  record.onCommitted = (lines) => {
    stations.committed(lines);
    screens.sessionSaved();
  };
  record.onDisk = (fault) => {
    if (fault !== null) settings.warn(fault);
  };
  // A new record on a full disk has nobody to tell yet.
  record.onDisk(record.fault);
  // What an opened record holds is on disk already.
  stations.committed(record.saved.lines);
  const rejections = new Rejections(record, settings.estimator, settings.warn);
  live.onFinished = (rejected) => rejections.add(rejected);
  const loop = new LoopDelay();
  const server = await startServer({
    health: () => loop.figures(),
    port: settings.port,
    version: settings.version,
    screenFolder: settings.screenFolder,
    lan: settings.lan,
    tls: settings.tls,
    ...recordFiles({
      admit: (text, way) => access.doorkeeper.admit(text, way),
      path: settings.recordPath,
      savedBytes: () => record.saved.bytes,
      places: followers.photographs,
    }),
    onSocket: (socket, wire, way, door) => access.enter(socket, wire, way, door),
    ...(settings.silentAfterS === undefined ? {} : { silentAfterS: settings.silentAfterS }),
  });
  access.listensAt({ port: server.port, lan: settings.lan, tlsPort: server.tlsPort });
  const pictures = setInterval(() => {
    rejections.write();
    stopTargets.write();
    void reductions.keepUp(() => screens.reduced());
    live.setRestless(vessel.isRestless(followers.session.states.length - 1));
    live.askPicture();
    screens.sendPicture((whole) => pictureNow(parts, { vessel, stations }, whole), live.traces);
  }, PICTURE_EVERY_MS);
  return {
    record,
    port: server.port,
    tlsPort: server.tlsPort,
    tls: settings.tls,
    access,
    paced: paced !== null,
    openedAtWallMs: parts.openedAtWallMs,
    session,
    stations: () => stations.list(),
    close: () => {
      loop.stop();
      return closeDock(pictures, server, live, record);
    },
  };
}

function pictureNow(
  { record, followers, live }: DockParts,
  { vessel, stations }: { vessel: SimulatedVessel; stations: Stations },
  whole: boolean,
): LivePicture {
  const { status } = vessel;
  return livePicture(
    {
      receiverS: record.clock.monotonicS(),
      wall: new Date(record.clock.wallMs()).toISOString(),
      session: followers.session,
      watch: live.picture,
      traces: live.traces,
      simulation:
        status === null
          ? null
          : {
              paceAsked: status.paceAsked,
              paceHeld: status.paceHeld,
              carrying: status.carrying,
              settledState: status.settledState,
              connected: vessel.connected,
            },
      saved: {
        wall: record.saved.wall,
        line: Math.max(0, record.saved.lines - 1),
        head: record.saved.head,
      },
      stations: stations.list(),
      notRecording: record.fault === null ? null : record.fault.message,
    },
    whole,
  );
}

async function closeDock(
  pictures: NodeJS.Timeout,
  server: RunningServer,
  live: LivePath,
  record: RecordFile,
): Promise<void> {
  clearInterval(pictures);
  await server.close();
  await live.close();
  await record.close();
}
