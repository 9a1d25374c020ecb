import type { WebSocket } from 'ws';
import { Fault } from '#core/fault/fault.ts';
import type { PersonRole } from '#core/wire/role-acts.ts';
import { personOf } from './access/access.ts';
import type { AdmittedBy } from './access/doorkeeper.ts';
import { type WayIn, wayWords } from './access/way-in.ts';
import type { LineFollowers } from './line-followers.ts';
import type { RecordFile } from './record-file.ts';
import type { ScreenHub } from './screen-hub.ts';
import type { StationLink } from './station-link.ts';
import type { Stations } from './stations.ts';

/** A closing that goes unanswered is not waited for: a dead socket must not keep a place. */
const CLOSED_WITHIN_MS = 1000;

export interface InsideParts {
  readonly record: RecordFile;
  readonly followers: LineFollowers;
  readonly stations: Stations;
  readonly screens: ScreenHub;
  readonly socketOf: WeakMap<StationLink, WebSocket>;
  readonly warn: (error: Error) => void;
}

/** Takes an admitted socket over: writes who came, once in a record, and hands it where it belongs. */
export function comeIn(
  parts: InsideParts,
  socket: WebSocket,
  { admitted, tokenSha256, blind }: AdmittedBy,
  way: WayIn,
): void {
  const { role, name } = admitted;
  writeAdmitted(parts, { person: personOf(tokenSha256), role, name, way: wayWords(way) });
  if (role === 'device') connectDevice(parts, socket, admitted.challenge);
  else
    parts.screens.connect(
      socket,
      { name, role: role satisfies PersonRole },
      { key: tokenSha256, blind },
    );
}

function writeAdmitted(
  { record, followers, warn }: InsideParts,
  body: Parameters<typeof record.append<'person-admitted'>>[1],
): void {
  const known = followers.session.people.admitted.some(
    (one) =>
      one.person === body.person &&
      one.name === body.name &&
      one.way === body.way &&
      one.withdrawn === null,
  );
  if (known) return;
  try {
    record.append('person-admitted', body, { author: 'receiver', role: 'receiver' });
  } catch (error) {
    // A disk that takes nothing more is told of elsewhere, and must not keep the architect out.
    if (!(error instanceof Fault)) throw error;
    warn(error);
  }
}

function connectDevice(
  { stations, socketOf }: InsideParts,
  socket: WebSocket,
  challenge: string,
): void {
  const link = stations.open(
    {
      send: (text) => socket.send(text),
      close: (code, reason) => {
        socket.close(code, reason);
        setTimeout(() => socket.terminate(), CLOSED_WITHIN_MS).unref();
      },
      pause: () => socket.pause(),
      resume: () => socket.resume(),
    },
    challenge,
  );
  socketOf.set(link, socket);
  socket.on('message', (bytes: Buffer, isBinary: boolean) => {
    link.receive(isBinary ? '' : bytes.toString('utf8'));
  });
  socket.once('close', () => stations.closed(link));
}
