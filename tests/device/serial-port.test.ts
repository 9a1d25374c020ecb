import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { SerialPort } from 'serialport';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { connectBoard } from '#device/board.ts';
import { startRig } from '#device/emulated/rig.ts';
import type { Rig, Transport } from '#device/emulated/rig-types.ts';
import type { StationEvent } from '#device/events.ts';
import { machineClock } from '#device/machine-clock.ts';
import { NO_OUTFIT } from '#device/outfit.ts';
import { realOutfit } from '#device/real-outfit.ts';
import { Station } from '#device/station.ts';
import { serialBoardPort } from '#device/transport.ts';
import { sequencesOf, TestReceiver, until } from './support/test-receiver.ts';

const SOCAT = 'socat';
const NO_SOCAT = 'socat is not installed: the serial port itself was not tested';

/** Two ends of one line, as pseudo-terminals; killing socat is pulling the cable. */
class SerialPair {
  readonly board: string;
  readonly host: string;
  readonly #socat: ChildProcess;

  constructor(folder: string) {
    this.board = path.join(folder, 'board');
    this.host = path.join(folder, 'host');
    const end = (link: string) => `pty,raw,echo=0,link=${link}`;
    // In a process group of its own: socat's child would hold the line if only socat died.
    this.#socat = spawn(SOCAT, [end(this.board), end(this.host)], {
      detached: true,
      stdio: 'ignore',
    });
  }

  async ready(): Promise<void> {
    await until(() => existsSync(this.board) && existsSync(this.host), 'both ends of the line');
  }

  async cut(): Promise<void> {
    const { pid } = this.#socat;
    if (this.#socat.exitCode !== null || pid === undefined) return;
    const gone = new Promise((resolve) => this.#socat.once('exit', resolve));
    process.kill(-pid, 'SIGKILL');
    await gone;
    await Promise.all([this.board, this.host].map((link) => rm(link, { force: true })));
  }
}

let folder: string;
let rig: Rig | null = null;
let pair: SerialPair | null = null;
let station: Station | null = null;
const bridges: { transport: Transport; line: SerialPort }[] = [];
let receiver: TestReceiver;
let events: StationEvent[];

/** Joins the emulated board to its end of the line. */
async function plugIn(rigNow: Rig, pairNow: SerialPair): Promise<void> {
  const transport = rigNow.boards.find(({ name }) => name === 'fore')!.open();
  const line = new SerialPort({ path: pairNow.board, baudRate: 115_200 });
  line.on('error', () => undefined);
  transport.on('error', () => undefined);
  await Promise.all([
    new Promise((resolve) => line.once('open', resolve)),
    new Promise((resolve) => transport.once('open', resolve)),
  ]);
  transport.on('data', (bytes: Buffer) => line.write(bytes));
  line.on('data', (bytes: Buffer) => transport.write(bytes));
  bridges.push({ transport, line });
}

async function pullOut(): Promise<void> {
  for (const { transport, line } of bridges.splice(0)) {
    await new Promise<void>((resolve) => transport.close(() => resolve()));
    if (line.isOpen) await new Promise<void>((resolve) => line.close(() => resolve()));
  }
}

beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'serial-'));
  receiver = new TestReceiver();
  events = [];
});
afterEach(async () => {
  await station?.stop(0);
  await pullOut();
  await rig?.stop();
  await pair?.cut();
  await receiver.close();
  await rm(folder, { recursive: true, force: true });
  station = null;
  rig = null;
  pair = null;
});

describe('a board on a real serial port', () => {
  it('boots, streams, is unplugged and plugged in again', { timeout: 60_000 }, async (ctx) => {
    if (spawnSync(SOCAT, ['-V']).status !== 0) ctx.skip(NO_SOCAT);
    rig = startRig({ seed: 3, pace: 1, wall: machineClock });
    pair = new SerialPair(folder);
    await pair.ready();
    await plugIn(rig, pair);
    const name = pair.host;
    station = await Station.open({
      dataFolder: path.join(folder, 'station'),
      receiverUrl: await receiver.listen(),
      pairing: { code: 'a'.repeat(22), pin: null },
      clocks: { station: machineClock, machine: machineClock },
      report: (event) => events.push(event),
      outfit: realOutfit(NO_OUTFIT),
    });
    station.keep(serialBoardPort(name));
    const streams = () => [...receiver.streams.keys()];
    const sequences = (k: number) => sequencesOf(receiver.items(streams()[k] ?? ''));
    await until(() => sequences(0).length >= 100, 'a hundred samples');

    await pair.cut();
    await pullOut();
    await until(() => events.some(({ event }) => event === 'stream-closed'), 'the loss');
    await until(
      () => events.some((event) => event.event === 'fault' && event.code === 'port-not-open'),
      'a port that is not there',
    );

    pair = new SerialPair(folder);
    await pair.ready();
    await plugIn(rig, pair);
    await until(() => sequences(1).length >= 50, 'samples again');

    for (const k of [0, 1]) expect(sequences(k)).toEqual(sequences(k).map((_, at) => at));
    const [first, second] = streams().map((stream) => receiver.items(stream));
    expect(first!.at(-1)).toMatchObject({ type: 'stream-closed', reason: 'board-lost' });
    // Nobody described this board, so its chip was found and named by where it is.
    expect(first![0]).toMatchObject({
      boardIsOurs: true,
      port: name,
      channels: [{ part: 'iis2iclx' }, { part: 'iis2iclx' }, { part: 'iis2iclx' }],
    });
    const [a, b] = [first![0]!, second![0]!];
    expect('board' in a && 'board' in b && a.board === b.board).toBe(true);
    expect(receiver.broken).toEqual([]);
  });

  it('says so when nothing on the line speaks', { timeout: 60_000 }, async (ctx) => {
    if (spawnSync(SOCAT, ['-V']).status !== 0) ctx.skip(NO_SOCAT);
    pair = new SerialPair(folder);
    await pair.ready();
    const port = serialBoardPort(pair.host);
    await expect(connectBoard(port, 115_200, 1500)).rejects.toMatchObject({ code: 'board-silent' });
    // The port was let go: it can be opened at once.
    await expect(connectBoard(port, 57_600, 500)).rejects.toMatchObject({ code: 'board-silent' });
  });
});
