import type { Socket } from 'node:net';

/** Connections that are no admitted socket: pages loading, or somebody who only holds them open. */
export const MOST_OPEN = 160;
export const MOST_OPEN_OF_ONE_ADDRESS = 48;

/**
 * Ends the oldest connection that has not become a socket when there are too many, so that ten
 * thousand slow ones hold nothing but each other's place.
 */
export class ConnectionLimits {
  /** By the other end's address and port: TLS puts a socket of its own over the one that came. */
  readonly #open = new Map<string, Socket>();

  opened(socket: Socket): void {
    const ofOne = [...this.#open.values()].filter(
      ({ remoteAddress }) => remoteAddress === socket.remoteAddress,
    );
    if (ofOne.length >= MOST_OPEN_OF_ONE_ADDRESS) this.#end(ofOne[0]);
    else if (this.#open.size >= MOST_OPEN) this.#end(this.#open.values().next().value);
    const key = keyOf(socket);
    this.#open.set(key, socket);
    socket.once('close', () => {
      if (this.#open.get(key) === socket) this.#open.delete(key);
    });
  }

  /** It is a WebSocket now and counted elsewhere. */
  becameSocket(socket: Socket): void {
    this.#open.delete(keyOf(socket));
  }

  #end(socket: Socket | undefined): void {
    if (socket === undefined) return;
    this.#open.delete(keyOf(socket));
    socket.destroy();
  }
}

function keyOf({ remoteAddress, remotePort }: Socket): string {
  return `${remoteAddress} ${remotePort}`;
}
