import type { Socket } from 'node:net';
import type { WebSocket } from 'ws';
import { FAULTS, Fault } from '#core/fault/fault.ts';
import {
  type AdmittedRole,
  MOST_ACCESS_BYTES,
  type NotAdmitted,
} from '#core/wire/access-message.ts';
import { faultOf } from '../own-fault.ts';
import type { AdmittedBy, Doorkeeper } from './doorkeeper.ts';
import { type Waiting, WaitingRoom } from './waiting-room.ts';
import type { WayIn } from './way-in.ts';

/** What may be connected at once; more of one role never keeps another out. */
export const MOST_OF_ROLE: Readonly<Record<AdmittedRole, number>> = {
  architect: 8,
  witness: 16,
  technician: 4,
  device: 8,
};
/** Frame heads, masks and a ping or two around the one message. */
const FRAMING_BYTES = 256;

/** Where a socket wants to go. */
export type Door = 'device' | 'screen';

export interface EntranceParts {
  readonly doorkeeper: Doorkeeper;
  /** Takes an admitted socket over; it is told so already. */
  readonly onAdmitted: (socket: WebSocket, by: AdmittedBy, way: WayIn) => void;
}

/** Holds every socket until it has said who it is, and hands it on or ends it. */
export class Entrance {
  readonly #parts: EntranceParts;
  readonly #room = new WaitingRoom();
  readonly #inside = new Map<AdmittedRole, number>();

  constructor(parts: EntranceParts) {
    this.#parts = parts;
  }

  /** `wire`: the connection under the socket, whose bytes are counted until it is admitted. */
  enter(socket: WebSocket, wire: Socket, way: WayIn, door: Door): void {
    const waiting: Waiting = {
      address: way.address,
      dismiss: (code, found) => {
        end();
        refuse(socket, new Fault(code, way.address, found));
      },
    };
    let bytes = 0;
    const count = (chunk: Buffer) => {
      bytes += chunk.length;
      if (bytes <= MOST_ACCESS_BYTES + FRAMING_BYTES) return;
      end();
      socket.terminate();
    };
    const first = (data: Buffer, isBinary: boolean) => {
      end();
      this.#admit(socket, isBinary ? '' : data.toString('utf8'), way, door);
    };
    const end = () => {
      this.#room.leave(waiting);
      wire.off('data', count);
      socket.off('message', first);
      socket.off('close', end);
    };
    wire.on('data', count);
    socket.once('message', first);
    socket.once('close', end);
    this.#room.enter(waiting);
  }

  #admit(socket: WebSocket, text: string, way: WayIn, door: Door): void {
    let by: AdmittedBy;
    try {
      by = this.#parts.doorkeeper.admit(text, way);
      const who = by.admitted;
      if ((who.role === 'device') !== (door === 'device'))
        throw new Fault('access-not-here', who.role, `this is the ${door}'s door`);
      this.#takePlace(socket, who.role);
    } catch (error) {
      refuse(socket, faultOf(error, 'access'));
      return;
    }
    socket.send(JSON.stringify(by.admitted));
    this.#parts.onAdmitted(socket, by, way);
  }

  #takePlace(socket: WebSocket, role: AdmittedRole): void {
    const inside = this.#inside.get(role) ?? 0;
    if (inside >= MOST_OF_ROLE[role])
      throw new Fault('access-full', role, `${inside} are connected`);
    this.#inside.set(role, inside + 1);
    socket.once('close', () => this.#inside.set(role, (this.#inside.get(role) ?? 1) - 1));
  }
}

function refuse(socket: WebSocket, fault: Fault): void {
  const { code, found } = fault.report;
  const answer: NotAdmitted = {
    type: 'not-admitted',
    code,
    found: found.slice(0, 500),
    remedy: FAULTS[code].remedy,
  };
  socket.send(JSON.stringify(answer));
  socket.close(1008, code);
  // A peer that does not answer the closing is not waited for.
  setTimeout(() => socket.terminate(), 1000).unref();
}
