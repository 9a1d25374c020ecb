import { once } from 'node:events';
import { type RawData, WebSocket } from 'ws';
import type { FromReceiver, Hello } from '#core/wire/link-message.ts';
import { until } from '#tests/support/programs.ts';

const MOUNTING = {
  instrument: 'fore',
  label: 'Fore',
  kind: 'inclinometer',
  sign: 1,
  spanM: null,
  heightOverRollAxisM: 0,
  settlingS: 1,
} as const;

export const CERTIFICATE = {
  number: 'C1',
  instrument: 'fore',
  method: 'sine bar',
  madeBy: 'test',
  date: '2026-11-01',
  zero: 0,
  scale: 1,
  scaleUncertainty: 0.0015,
  leftOver: 0.0001,
  temperatureC: null,
  points: [],
};

export function helloOf(station: string, run: string, more: Partial<Hello> = {}): Hello {
  return {
    type: 'hello',
    version: 1,
    station,
    publicKey: 'A'.repeat(43),
    run,
    mountings: [MOUNTING],
    certificates: [CERTIFICATE],
    simulated: null,
    ...more,
  };
}

/** A board side without boards: sends what it is told and keeps what it hears. */
export class StationClient {
  readonly heard: FromReceiver[] = [];
  readonly socket: WebSocket;
  closedWith: number | null = null;

  private constructor(socket: WebSocket) {
    this.socket = socket;
    socket.on('message', (data: RawData) => {
      this.heard.push(JSON.parse(String(data)) as FromReceiver);
    });
    socket.on('error', () => {});
    socket.on('close', (code) => {
      this.closedWith = code;
    });
  }

  static async connect(port: number): Promise<StationClient> {
    const client = new StationClient(new WebSocket(`ws://127.0.0.1:${port}/device`));
    await once(client.socket, 'open');
    return client;
  }

  send(message: unknown): void {
    this.socket.send(typeof message === 'string' ? message : JSON.stringify(message));
  }

  /** Sends and resolves with the code it is refused with. */
  async refusalOf(message: unknown): Promise<string> {
    const before = this.refusals.length;
    this.send(message);
    await until('a refusal', () => this.refusals.length > before);
    return this.refusals.at(-1) ?? '';
  }

  get refusals(): string[] {
    return this.heard.flatMap((message) => (message.type === 'refused' ? message.code : []));
  }

  /** The last number acknowledged of a stream, or null. */
  acknowledged(stream: string): number | null {
    const last = this.heard.findLast(
      (message) => message.type === 'acknowledged' && message.stream === stream,
    );
    return last?.type === 'acknowledged' ? last.number : null;
  }

  close(): void {
    this.socket.terminate();
  }
}
