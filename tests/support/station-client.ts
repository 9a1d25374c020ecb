import type { RawData, WebSocket } from 'ws';
import { base64UrlOf } from '#core/digest/base64-url.ts';
import { publicKeyOf, signBytes } from '#core/digest/ed25519.ts';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { utf8FromText } from '#core/digest/utf-8.ts';
import { type FromReceiver, type Hello, stationProofText } from '#core/wire/link-message.ts';
import { until } from '#tests/support/programs.ts';
import { type AskedIn, letIn } from './receiver-access.ts';

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

/** A key of its own for each name, the same every time. */
function keyOf(station: string): Uint8Array {
  return Uint8Array.from(Buffer.from(sha256Hex(utf8FromText(station)), 'hex'));
}

/** A greeting signed for this challenge, with the station's key or the key of another name. */
export function helloOf(
  challenge: string,
  station: string,
  run: string,
  more: Partial<Hello> = {},
  keyName = station,
): Hello {
  const key = keyOf(keyName);
  return {
    type: 'hello',
    version: 1,
    station,
    publicKey: base64UrlOf(publicKeyOf(key)),
    proof: base64UrlOf(signBytes(stationProofText(challenge, station, run), key)),
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
  /** What its connection was admitted with, and its greeting signs. */
  readonly challenge: string;

  private constructor({ socket, hear }: AskedIn, challenge: string) {
    this.challenge = challenge;
    this.socket = socket;
    hear((data: RawData) => {
      this.heard.push(JSON.parse(String(data)) as FromReceiver);
    });
    socket.on('error', () => {});
    socket.on('close', (code) => {
      this.closedWith = code;
    });
  }

  static async connect(port: number): Promise<StationClient> {
    const { admitted, ...asked } = await letIn(port, 'device', '');
    return new StationClient(asked, admitted.challenge);
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
