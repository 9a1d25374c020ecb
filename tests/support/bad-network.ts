import { once } from 'node:events';
import { connect, createServer, type Server, type Socket } from 'node:net';
import { pause } from './programs.ts';

/** What becomes of the bytes of one direction: handed on, handed on slowly, or held back unseen. */
export type Passage = 'open' | 'held' | { readonly bytesPerS: number };
type End = 'device' | 'receiver';

const SLOW_PIECE_S = 0.25;
const LOOK_AGAIN_MS = 20;

/**
 * A stretch of bad network between a board side and the receiver, at the level of TCP: it can cut,
 * close one end only, slow down and hold back. What it holds back it hands on later in order, as
 * TCP does; while a direction is held the end of a connection is not told on that way either.
 */
export class BadNetwork {
  readonly passage: { toReceiver: Passage; toDevice: Passage } = {
    toReceiver: 'open',
    toDevice: 'open',
  };
  /** New connections are closed at once. */
  refuses = false;
  connections = 0;
  readonly #server: Server;
  readonly #receiverPort: number;
  readonly #pairs = new Set<Record<End, Socket>>();

  private constructor(server: Server, receiverPort: number) {
    this.#server = server;
    this.#receiverPort = receiverPort;
    server.on('connection', (device) => this.#join(device));
  }

  static async listen(receiverPort: number): Promise<BadNetwork> {
    const server = createServer({ allowHalfOpen: true });
    server.listen(0, '127.0.0.1');
    await once(server, 'listening');
    return new BadNetwork(server, receiverPort);
  }

  get url(): string {
    const address = this.#server.address();
    const port = typeof address === 'object' && address !== null ? address.port : 0;
    return `ws://127.0.0.1:${port}/device`;
  }

  /** Ends every connection, politely (FIN) or not (RST), and tells both ends. */
  cut(how: 'fin' | 'rst'): void {
    for (const pair of this.#pairs) for (const end of Object.values(pair)) this.#end(end, how);
    this.#pairs.clear();
  }

  /** Closes one end of every connection; the other end stays open, and what it sends is dropped. */
  closeOnly(told: End): void {
    for (const pair of this.#pairs) {
      const untold = pair[told === 'device' ? 'receiver' : 'device'];
      this.#pairs.delete(pair);
      untold.removeAllListeners('data').on('data', () => {});
      untold.resume();
      this.#end(pair[told], 'fin');
    }
  }

  mend(): void {
    this.refuses = false;
    this.passage.toReceiver = 'open';
    this.passage.toDevice = 'open';
  }

  close(): void {
    this.#server.close();
    this.cut('rst');
  }

  #end(socket: Socket, how: 'fin' | 'rst'): void {
    if (how === 'rst') socket.resetAndDestroy();
    else socket.end(() => socket.destroy());
  }

  #join(device: Socket): void {
    device.on('error', () => {});
    if (this.refuses) {
      device.destroy();
      return;
    }
    this.connections += 1;
    const receiver = connect({
      host: '127.0.0.1',
      port: this.#receiverPort,
      allowHalfOpen: true,
    });
    receiver.on('error', () => {});
    const pair = { device, receiver };
    this.#pairs.add(pair);
    this.#carry(pair, 'device', () => this.passage.toReceiver);
    this.#carry(pair, 'receiver', () => this.passage.toDevice);
  }

  /** Carries what one end sends to the other, piece by piece, as the passage then allows. */
  #carry(pair: Record<End, Socket>, from: End, passage: () => Passage): void {
    const source = pair[from];
    const sink = pair[from === 'device' ? 'receiver' : 'device'];
    let last: Promise<void> = Promise.resolve();
    let first = from === 'device';
    source.on('data', (bytes: Buffer) => {
      source.pause();
      const sent = first ? this.#asIfDirect(bytes) : bytes;
      first = false;
      last = this.#handOn(sent, { pair, sink, passage }).then(() => void source.resume());
    });
    source.once('close', () => {
      void last
        .then(() => this.#whileHeld(pair, passage))
        .then(() => {
          if (this.#pairs.delete(pair)) sink.destroy();
        });
    });
    source.once('end', () => source.destroy());
  }

  /** The receiver answers only to its own address: the greeting names it instead of this one. */
  #asIfDirect(greeting: Buffer): Buffer {
    const own = /^Host: 127\.0\.0\.1:\d+/m;
    const text = greeting.toString('latin1').replace(own, `Host: 127.0.0.1:${this.#receiverPort}`);
    return Buffer.from(text, 'latin1');
  }

  async #handOn(
    bytes: Buffer,
    to: { pair: Record<End, Socket>; sink: Socket; passage: () => Passage },
  ): Promise<void> {
    for (let at = 0; at < bytes.length && this.#pairs.has(to.pair); ) {
      await this.#whileHeld(to.pair, to.passage);
      const now = to.passage();
      const slow = typeof now === 'object';
      const piece = slow ? Math.ceil(now.bytesPerS * SLOW_PIECE_S) : bytes.length;
      const part = bytes.subarray(at, at + piece);
      at += part.length;
      if (to.sink.writable && !to.sink.write(part))
        await Promise.race([once(to.sink, 'drain'), once(to.sink, 'close')]).catch(() => {});
      if (slow) await pause(SLOW_PIECE_S * 1000);
    }
  }

  async #whileHeld(pair: Record<End, Socket>, passage: () => Passage): Promise<void> {
    while (passage() === 'held' && this.#pairs.has(pair)) await pause(LOOK_AGAIN_MS);
  }
}
