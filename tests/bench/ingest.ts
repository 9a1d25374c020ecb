import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { RawData, WebSocket } from 'ws';
import type { FromReceiver } from '#core/wire/link-message.ts';
import { marramTest } from '#device/emulated/marram.ts';
import { ALL_QUIET } from '#device/emulated/simulated-world.ts';
import { type Program, pause, startProgram, until } from '#tests/support/programs.ts';
import { type AskedIn, letIn, receiverStarted } from '#tests/support/receiver-access.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';
import { MOST_PACE_ASKED } from '#tests/support/soak-messages.ts';
import { SoakSource } from '#tests/support/soak-source.ts';
import { helloOf } from '#tests/support/station-client.ts';
import { BareServer, pour } from './bare-server.ts';
import { type LinkMessage, linkMessages } from './link-messages.ts';
import { mainThreadS } from './thread-time.ts';

const SEED = 9;
const STATION = 'bench';
const SCREENS = 10;
const ROUNDS = 3;
/** Station seconds fed as fast as they are taken, in each round. */
const FED_S = 1200;
/** Station seconds fed at ten times a day's rate, to see how soon they are acknowledged. */
const PACED_S = 150;
const PACE = 10;
const STATUS_EVERY_MS = 100;

export interface IngestFigures {
  /** Counts of all channels a wall second, of each round. */
  readonly barePerS: readonly number[];
  /** To the last acknowledgement. */
  readonly receiverPerS: readonly number[];
  /** To the answer of the judge, which has then seen every sample. */
  readonly judgedPerS: readonly number[];
  /** Processor time of the main thread alone, microseconds a message: what a busy machine does not change; NaN where the system does not tell. */
  readonly bareMessageUs: number;
  readonly receiverMessageUs: number;
  readonly acknowledgedMs: readonly number[];
  readonly bytesPerSample: number;
}

/**
 * Real link messages into the whole receiver (a process as in use, a test open, four instruments,
 * ten screens) and into a bare server that only parses them, in turn on one machine.
 */
export async function measureIngest(): Promise<IngestFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'ingest-'));
  const source = new SoakSource(SEED);
  const messages = await linkMessages(STATION, source, ROUNDS * FED_S + PACED_S);
  const bare = await BareServer.start();
  const receiver = await FedReceiver.start(join(folder, 'ingest.hwr'), source);
  try {
    const figures = { barePerS: [], receiverPerS: [], judgedPerS: [] } as {
      [name in 'barePerS' | 'receiverPerS' | 'judgedPerS']: number[];
    };
    const busyS = { bare: 0, receiver: 0, messages: 0 };
    for (let round = 0; round < ROUNDS; round += 1) {
      const part = messages.filter(
        ({ stationS }) => stationS >= round * FED_S && stationS < (round + 1) * FED_S,
      );
      const samples = samplesOf(part);
      const before = [bare.busyS, receiver.busyS] as const;
      figures.barePerS.push(samples / (await bare.feed(part)));
      const { acknowledgedS, judgedS } = await receiver.feed(part);
      busyS.bare += bare.busyS - before[0];
      busyS.receiver += receiver.busyS - before[1];
      busyS.messages += part.length;
      figures.receiverPerS.push(samples / acknowledgedS);
      figures.judgedPerS.push(samples / judgedS);
    }
    const rest = messages.filter(({ stationS }) => stationS >= ROUNDS * FED_S);
    const acknowledgedMs = await receiver.feedPaced(rest);
    const bytesPerSample = statSync(receiver.record).size / samplesOf(messages);
    const bareMessageUs = (busyS.bare / busyS.messages) * 1e6;
    const receiverMessageUs = (busyS.receiver / busyS.messages) * 1e6;
    return { ...figures, bareMessageUs, receiverMessageUs, acknowledgedMs, bytesPerSample };
  } finally {
    await bare.close();
    await receiver.close();
    rmSync(folder, { recursive: true });
  }
}

function samplesOf(messages: readonly LinkMessage[]): number {
  return messages.reduce((sum, { samples }) => sum + samples, 0);
}

class FedReceiver {
  readonly record: string;
  readonly #program: Program;
  readonly #socket: WebSocket;
  readonly #screens: readonly ScreenClient[];
  readonly #acknowledged = new Map<string, number>();
  #heard: (stream: string, number: number) => void = () => {};
  #refused = '';
  #statusMs = 0;
  #statusS = 0;

  private constructor(parts: {
    record: string;
    program: Program;
    socket: WebSocket;
    hear: AskedIn['hear'];
    screens: readonly ScreenClient[];
  }) {
    this.record = parts.record;
    this.#program = parts.program;
    this.#socket = parts.socket;
    this.#screens = parts.screens;
    parts.hear((data: RawData) => this.#hear(String(data)));
  }

  static async start(record: string, source: SoakSource): Promise<FedReceiver> {
    const program = startProgram(
      'receiver',
      ['receive', '--paced', '--record', record, '--port', '0', '--data', dirname(record)],
      (process.env['HEELWRIGHT_RECEIVER_NODE_ARGS'] ?? '').split(' ').filter((word) => word !== ''),
    );
    const { port } = await receiverStarted(program);
    const screens = await Promise.all(
      Array.from({ length: SCREENS }, (_, k) =>
        ScreenClient.connect(port, k === 0 ? 'architect' : 'witness'),
      ),
    );
    const { socket, admitted, hear } = await letIn(port, 'device', '');
    const fed = new FedReceiver({ record, program, socket, hear, screens });
    const { truth } = source.world.status(0);
    const simulation = {
      ...{ seed: SEED, paceAsked: MOST_PACE_ASKED, paceHeld: 1, disturbances: ALL_QUIET },
      truth,
    };
    const hello = helloOf(admitted.challenge, STATION, 'bench', {
      mountings: [...source.mountings],
      certificates: [...source.certificates],
      simulated: { simulation, test: marramTest() },
    });
    socket.send(JSON.stringify(hello));
    await until('a test is open', () => screens[0]!.state?.test != null);
    return fed;
  }

  get busyS(): number {
    return mainThreadS(this.#program.child.pid) ?? Number.NaN;
  }

  async feed(
    messages: readonly LinkMessage[],
  ): Promise<{ acknowledgedS: number; judgedS: number }> {
    const last = lastOf(messages);
    const beganMs = performance.now();
    await pour(this.#socket, messages, (next) => this.#status(next.stationS));
    const done = () =>
      [...last].every(([stream, number]) => (this.#acknowledged.get(stream) ?? -1) >= number);
    while (!done()) {
      if (this.#refused !== '') throw new Error(`the receiver refused: ${this.#refused}`);
      await pause(1);
    }
    const acknowledgedS = (performance.now() - beganMs) / 1000;
    // It is asked in its turn: whatever it answers, it has looked at every sample before.
    const answer = await this.#screens[0]!.act({ kind: 'take-reading' });
    const judgedS = (performance.now() - beganMs) / 1000;
    if (answer === null) await this.#void();
    else if (answer !== 'act-not-steady') throw new Error(answer);
    return { acknowledgedS, judgedS };
  }

  /** A state that is read is not read again: the next round's samples would not be asked for. */
  async #void(): Promise<void> {
    const line = () => this.#screens[0]!.state?.states.at(-1)?.readingWritten?.line;
    await until('the reading is shown', () => line() !== undefined);
    const act = { kind: 'void-reading', line: line() ?? 0, reason: 'the bench goes on' } as const;
    const refused = await this.#screens[0]!.act(act);
    if (refused !== null) throw new Error(refused);
  }

  /** Wall milliseconds from sending to acknowledgement of each message, at a held pace. */
  async feedPaced(messages: readonly LinkMessage[]): Promise<number[]> {
    const sentMs = new Map<string, number>();
    const delays: number[] = [];
    this.#heard = (stream, number) => {
      for (const [name, atMs] of sentMs) {
        const [of, each] = name.split(' ');
        if (of !== stream || Number(each) > number) continue;
        delays.push(performance.now() - atMs);
        sentMs.delete(name);
      }
    };
    const beganMs = performance.now();
    const fromS = messages[0]?.stationS ?? 0;
    for (const message of messages) {
      const dueMs = beganMs + ((message.stationS - fromS) / PACE) * 1000;
      while (performance.now() < dueMs) await pause(1);
      this.#status(message.stationS);
      sentMs.set(`${message.stream} ${message.number}`, performance.now());
      this.#socket.send(message.text);
    }
    await until('everything is acknowledged', () => sentMs.size === 0);
    return delays;
  }

  async close(): Promise<void> {
    for (const screen of this.#screens) screen.close();
    this.#socket.terminate();
    await this.#program.stop();
  }

  #hear(text: string): void {
    const message = JSON.parse(text) as FromReceiver;
    if (message.type === 'refused') this.#refused = `${message.code} ${message.found}`;
    if (message.type !== 'acknowledged') return;
    this.#acknowledged.set(message.stream, message.number);
    this.#heard(message.stream, message.number);
  }

  /** Her time and pace, ten times a wall second, as a simulated vessel says them. */
  #status(stationS: number): void {
    const nowMs = performance.now();
    const passedMs = nowMs - this.#statusMs;
    if (passedMs < STATUS_EVERY_MS) return;
    const paceHeld = Math.max(1, (stationS - this.#statusS) / (passedMs / 1000));
    this.#statusMs = nowMs;
    this.#statusS = stationS;
    this.#socket.send(
      JSON.stringify({
        ...{ type: 'simulation-status', stationS, paceAsked: MOST_PACE_ASKED, paceHeld },
        ...{ disturbances: ALL_QUIET, carrying: [], settledState: 0 },
      }),
    );
  }
}

function lastOf(messages: readonly LinkMessage[]): Map<string, number> {
  return new Map(messages.map(({ stream, number }) => [stream, number]));
}
