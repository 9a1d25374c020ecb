import { type WebSocket, WebSocketServer } from 'ws';
import { type StreamItem, streamItem } from '#core/sample/stream-item.ts';
import { fromUnknown } from '#core/wire/access-message.ts';
import { type FromStation, fromStation } from '#core/wire/link-message.ts';

/** How a test receiver misbehaves; nothing by default. */
export interface Manners {
  /** Answer a greeting at all. */
  welcome: boolean;
  acknowledge: boolean;
  /** Answer clock exchanges. */
  exchange: boolean;
  /** Cut the connection after so many items of one connection. */
  cutAfterItems: number;
  /** Sent before the welcome and after each item. */
  noise: readonly (string | Buffer)[];
  record: string;
}

/**
 * A receiver as small as can be: keeps the bytes of every item once, acknowledges, answers
 * exchanges, and holds the station to the rules of a stream.
 */
export class TestReceiver {
  readonly manners: Manners = {
    welcome: true,
    acknowledge: true,
    exchange: true,
    cutAfterItems: Number.POSITIVE_INFINITY,
    noise: [],
    record: 'record-1',
  };
  readonly streams = new Map<string, { item: StreamItem; bytes: string }[]>();
  readonly said: FromStation[] = [];
  /** Everything that broke a rule. */
  readonly broken: string[] = [];
  connections = 0;
  /** Items that came again with the same bytes. */
  repeated = 0;
  #server: WebSocketServer | null = null;
  #sockets = new Set<WebSocket>();
  #port = 0;

  async listen(): Promise<string> {
    const server = new WebSocketServer({ host: '127.0.0.1', port: this.#port });
    this.#server = server;
    await new Promise<void>((resolve) => server.once('listening', () => resolve()));
    const address = server.address();
    if (typeof address === 'string' || address === null) throw new Error('no address');
    this.#port = address.port;
    server.on('connection', (socket) => this.#accept(socket));
    return `ws://127.0.0.1:${this.#port}/device`;
  }

  send(message: string | Buffer): void {
    for (const socket of this.#sockets) socket.send(message);
  }

  cut(): void {
    for (const socket of this.#sockets) socket.terminate();
  }

  async close(): Promise<void> {
    this.cut();
    const server = this.#server;
    this.#server = null;
    if (server !== null) await new Promise<void>((resolve) => server.close(() => resolve()));
  }

  items(stream: string): StreamItem[] {
    return (this.streams.get(stream) ?? []).map(({ item }) => item);
  }

  #accept(socket: WebSocket): void {
    this.connections += 1;
    this.#sockets.add(socket);
    socket.on('close', () => this.#sockets.delete(socket));
    let items = 0;
    socket.on('message', (data: Buffer, isBinary: boolean) => {
      if (isBinary) this.broken.push('a binary message');
      const text = data.toString('utf8');
      const message: { type?: string } = JSON.parse(text);
      if (fromUnknown.safeParse(message).success) {
        const challenge = 'c'.repeat(43);
        const admitted = {
          type: 'admitted',
          role: 'device',
          name: 'Boards',
          token: null,
          challenge,
        };
        socket.send(JSON.stringify(admitted));
        return;
      }
      const own = fromStation.safeParse(message);
      if (own.success) {
        this.#hear(socket, own.data);
        return;
      }
      items += 1;
      if (items > this.manners.cutAfterItems) {
        socket.terminate();
        return;
      }
      this.#take(socket, streamItem.parse(message), text);
      for (const noise of this.manners.noise) socket.send(noise);
    });
  }

  #hear(socket: WebSocket, message: FromStation): void {
    this.said.push(message);
    if (message.type === 'hello' && this.manners.welcome) {
      for (const noise of this.manners.noise) socket.send(noise);
      const acknowledged = [...this.streams].map(([stream, held]) => ({
        stream,
        number: held.length - 1,
      }));
      const { record } = this.manners;
      socket.send(JSON.stringify({ type: 'welcome', version: 1, record, acknowledged }));
    } else if (message.type === 'exchange' && this.manners.exchange) {
      const { sentStationS } = message;
      const reply = { sentStationS, receivedReceiverS: 1, repliedReceiverS: 1 };
      socket.send(JSON.stringify({ type: 'exchange-reply', ...reply }));
    }
  }

  #take(socket: WebSocket, item: StreamItem, bytes: string): void {
    const held = this.streams.get(item.stream) ?? [];
    const known = held[item.number];
    if (known !== undefined) {
      this.repeated += 1;
      if (known.bytes !== bytes) this.broken.push(`${item.stream} ${item.number} with other bytes`);
    } else if (item.number !== held.length) {
      this.broken.push(`${item.stream}: ${item.number} where ${held.length} was due`);
      return;
    } else {
      held.push({ item, bytes });
      this.streams.set(item.stream, held);
    }
    if (!this.manners.acknowledge) return;
    const number = item.number;
    socket.send(JSON.stringify({ type: 'acknowledged', stream: item.stream, number }));
  }
}

/** Sequence numbers of all samples of a stream, in order. */
export function sequencesOf(items: readonly StreamItem[]): number[] {
  return items.flatMap((item) => {
    if (item.type !== 'samples') return [];
    let sequence = item.firstSequence;
    return item.stepUs.map((_, k) => {
      sequence += k === 0 ? 0 : (item.stepSequence?.[k] ?? 1);
      return sequence;
    });
  });
}

/** Waits for something a socket or a disk brings about; fails the test after half a minute, which a busy machine may need. */
export async function until(holds: () => boolean, what: string): Promise<void> {
  const started = performance.now();
  while (!holds()) {
    if (performance.now() - started > 30_000) throw new Error(`not within 30 s: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}
