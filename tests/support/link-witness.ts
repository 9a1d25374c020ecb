import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { type RawData, WebSocket, WebSocketServer } from 'ws';
import { FAULTS } from '#core/fault/fault.ts';

/**
 * Stands between a board side and the receiver and remembers what was promised: the digest of
 * every item sent, and up to where each stream was acknowledged.
 */
export class LinkWitness {
  readonly sent = new Map<string, string>();
  readonly acknowledged = new Map<string, number>();
  readonly refused: { code: string; found: string }[] = [];
  readonly #server: WebSocketServer;
  readonly #receiverUrl: string;

  private constructor(server: WebSocketServer, receiverUrl: string) {
    this.#server = server;
    this.#receiverUrl = receiverUrl;
    server.on('connection', (device) => this.#join(device));
  }

  static async listen(receiverUrl: string): Promise<LinkWitness> {
    const server = new WebSocketServer({ host: '127.0.0.1', port: 0 });
    await once(server, 'listening');
    return new LinkWitness(server, receiverUrl);
  }

  get url(): string {
    const address = this.#server.address();
    const port = typeof address === 'object' && address !== null ? address.port : 0;
    return `ws://127.0.0.1:${port}/device`;
  }

  close(): void {
    for (const client of this.#server.clients) client.terminate();
    this.#server.close();
  }

  #join(device: WebSocket): void {
    const receiver = new WebSocket(this.#receiverUrl);
    const early: string[] = [];
    device.on('message', (data: RawData) => {
      const text = String(data);
      this.#fromDevice(text);
      if (receiver.readyState === WebSocket.OPEN) receiver.send(text);
      else early.push(text);
    });
    receiver.on('open', () => {
      for (const text of early) receiver.send(text);
    });
    receiver.on('message', (data: RawData) => {
      const text = String(data);
      this.#fromReceiver(text);
      if (device.readyState === WebSocket.OPEN) device.send(text);
    });
    const end = () => {
      device.terminate();
      receiver.terminate();
    };
    for (const socket of [device, receiver]) socket.on('close', end).on('error', end);
  }

  #fromDevice(text: string): void {
    const { stream, number } = JSON.parse(text) as { stream?: string; number?: number };
    if (stream === undefined || number === undefined) return;
    const digest = createHash('sha256').update(text).digest('hex');
    const before = this.sent.get(`${stream} ${number}`);
    if (before !== undefined && before !== digest) throw new Error(`${stream} ${number} changed`);
    this.sent.set(`${stream} ${number}`, digest);
  }

  #fromReceiver(text: string): void {
    const message = JSON.parse(text) as Record<string, unknown>;
    if (message['type'] === 'refused') {
      const code = String(message['code']);
      if (!Object.hasOwn(FAULTS, code)) throw new Error(`unknown code ${code}`);
      this.refused.push({ code, found: String(message['found']) });
    }
    if (message['type'] !== 'acknowledged') return;
    const stream = String(message['stream']);
    const number = Number(message['number']);
    this.acknowledged.set(stream, Math.max(number, this.acknowledged.get(stream) ?? -1));
  }
}
