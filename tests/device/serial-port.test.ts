import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { connectBoard } from '#device/board.ts';
import { startRig } from '#device/emulated/rig.ts';
import type { Rig } from '#device/emulated/rig-types.ts';
import type { StationEvent } from '#device/events.ts';
import { machineClock } from '#device/machine-clock.ts';
import { NO_OUTFIT } from '#device/outfit.ts';
import { realOutfit } from '#device/real-outfit.ts';
import { Station } from '#device/station.ts';
import { serialBoardPort } from '#device/transport.ts';
import { hasSocat, NO_SOCAT, SerialPair } from '#tests/support/serial-pair.ts';
import { sequencesOf, TestReceiver, until } from './support/test-receiver.ts';

let folder: string;
let rig: Rig | null = null;
let pair: SerialPair | null = null;
let station: Station | null = null;
let receiver: TestReceiver;
let events: StationEvent[];

beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'serial-'));
  receiver = new TestReceiver();
  events = [];
});
afterEach(async () => {
  await station?.stop(0);
  await pair?.cut();
  await rig?.stop();
  await receiver.close();
  await rm(folder, { recursive: true, force: true });
  station = null;
  rig = null;
  pair = null;
});

describe('a board on a real serial port', () => {
  it('boots, streams, is unplugged and plugged in again', { timeout: 60_000 }, async (ctx) => {
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    rig = startRig({ seed: 3, pace: 1, wall: machineClock });
    pair = await SerialPair.open(folder);
    await pair.plugIn(rig, 'fore');
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
    await until(() => events.some(({ event }) => event === 'stream-closed'), 'the loss');
    await until(
      () => events.some((event) => event.event === 'fault' && event.code === 'port-not-open'),
      'a port that is not there',
    );

    pair = await SerialPair.open(folder);
    await pair.plugIn(rig, 'fore');
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
    if (!hasSocat()) ctx.skip(NO_SOCAT);
    pair = await SerialPair.open(folder);
    const port = serialBoardPort(pair.host);
    await expect(connectBoard(port, 115_200, 1500)).rejects.toMatchObject({ code: 'board-silent' });
    // The port was let go: it can be opened at once.
    await expect(connectBoard(port, 57_600, 500)).rejects.toMatchObject({ code: 'board-silent' });
  });
});
