import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { startRig } from '#device/emulated/rig.ts';
import type { Rig } from '#device/emulated/rig-types.ts';
import { machineClock } from '#device/machine-clock.ts';
import { freePort, type Program, startProgram, until } from '#tests/support/programs.ts';
import { holesOf, linesOf, streamsOf } from '#tests/support/record-items.ts';
import { ScreenClient } from '#tests/support/screen-client.ts';
import { hasSocat, NO_SOCAT, SerialPair } from '#tests/support/serial-pair.ts';

const SEED = 37;
let folder: string;
let record: string;
let port: number;
let screen: ScreenClient;
let rig: Rig | null = null;
let pair: SerialPair | null = null;
const running: Program[] = [];

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'two-'));
  record = join(folder, 'day.hwr');
  port = await freePort();
});
afterEach(async () => {
  screen?.close();
  await pair?.cut();
  await rig?.stop();
  pair = null;
  rig = null;
  for (const program of running.splice(0)) await program.kill();
  rmSync(folder, { recursive: true });
});

function receiver(atPort = port, more: readonly string[] = ['--paced']): Program {
  const program = startProgram('receiver', [
    ...['receive', ...more, '--record', record, '--port', `${atPort}`],
  ]);
  running.push(program);
  return program;
}

function device(
  data: string,
  boards: readonly string[] = ['--emulated', '--seed', `${SEED}`],
): Program {
  const program = startProgram('device', [
    ...['log', ...boards, '--data', data, '--receiver', `ws://127.0.0.1:${port}/device`],
  ]);
  running.push(program);
  return program;
}

const savedLine = () => screen.live?.saved.line ?? 0;
async function flows(when: string): Promise<void> {
  const before = savedLine();
  await until(`lines are saved ${when}`, () => savedLine() > before + 5);
}

async function firstOnes(): Promise<{ dockside: Program; station: Program; data: string }> {
  const dockside = receiver();
  await dockside.says(/http:\/\/127/);
  screen = await ScreenClient.connect(port);
  const data = join(folder, 'station');
  const station = device(data);
  await until('two streams', () => (screen.state?.streams ?? []).length === 2);
  await flows('at first');
  return { dockside, station, data };
}

/** The first board side ran through it all: its two streams are whole, and nobody else's are there. */
async function firstUnharmed(dockside: Program, station: Program): Promise<void> {
  await flows('at last');
  expect(await station.stop()).toBe(0);
  expect(await dockside.stop()).toBe(0);
  const streams = streamsOf(record);
  expect(streams).toHaveLength(2);
  for (const stream of streams) {
    expect(holesOf(stream)).toEqual([]);
    expect(stream.sequences[0]).toBe(0);
    expect(stream.items.at(-1)).toMatchObject({ type: 'stream-closed', reason: 'wanted' });
  }
}

describe('two of one', () => {
  it('a second board side with the data folder of the first is refused, the first unharmed', async () => {
    const { dockside, station, data } = await firstOnes();
    const second = device(data);
    await second.says(/station-folder/);
    await until('it has ended', () => second.child.exitCode !== null);
    expect(second.child.exitCode).toBe(3);

    const copied = join(folder, 'copied');
    cpSync(data, copied, { recursive: true, filter: (file) => !file.endsWith('.lock') });
    const third = device(copied);
    await third.says(/station-twice/);
    await flows('beside the third');
    expect(third.child.exitCode).toBeNull();
    await third.kill();
    await firstUnharmed(dockside, station);
    // One connection all along: the clock was paired once, and no loss of the link was told.
    expect(linesOf(record).filter(({ line }) => line.kind === 'station-clock')).toHaveLength(1);
  });

  it('a second receiver of one record is refused; when the first is killed it opens at once', async () => {
    const { dockside, station } = await firstOnes();
    const other = await freePort();
    const second = receiver(other);
    await second.says(/record-locked/);
    await until('it has ended', () => second.child.exitCode !== null);
    expect(second.child.exitCode).toBe(3);
    await flows('beside the second');

    await dockside.kill();
    screen.close();
    // No waiting and no clearing away: the system let go of the lock with the process.
    const next = receiver();
    await next.says(/http:\/\/127/);
    screen = await ScreenClient.connect(port);
    await firstUnharmed(next, station);
  });
});

describe('a board pulled out of a running day', () => {
  it('goes on in a stream of its own at the same port and at another', {
    timeout: 120_000,
  }, async (context) => {
    if (!hasSocat()) {
      console.log(NO_SOCAT);
      context.skip(NO_SOCAT);
    }
    const dockside = receiver(port, []);
    await dockside.says(/http:\/\/127/);
    screen = await ScreenClient.connect(port);
    rig = startRig({ seed: SEED, pace: 1, wall: machineClock });
    const places = ['one', 'one', 'other'] as const;
    const hosts = ['one', 'other'].flatMap((name) => ['--port', join(folder, `${name}-host`)]);
    const station = device(join(folder, 'station'), hosts);
    const sampled = (k: number) => screen.state?.streams[k]?.samples ?? 0;
    for (const [k, place] of places.entries()) {
      pair = await SerialPair.open(folder, place);
      await pair.plugIn(rig, 'fore');
      await until(`samples at ${place}, stream ${k}`, () => sampled(k) >= 50);
      if (k === places.length - 1) break;
      await pair.cut();
      await until('the screen is told', () => screen.state?.streams[k]?.reason === 'board-lost');
    }
    expect(await station.stop()).toBe(0);
    expect(await dockside.stop()).toBe(0);

    const streams = streamsOf(record);
    const opened = streams.map(({ items }) => items[0]).filter((item) => item !== undefined);
    expect(opened.map((item) => 'port' in item && item.port)).toEqual(
      places.map((place) => join(folder, `${place}-host`)),
    );
    expect(new Set(opened.map((item) => 'board' in item && item.board)).size).toBe(1);
    const closings = streams.map(({ items }) => items.at(-1));
    expect(closings.map((item) => item !== undefined && 'reason' in item && item.reason)).toEqual([
      'board-lost',
      'board-lost',
      'wanted',
    ]);
    for (const stream of streams) {
      expect(holesOf(stream)).toEqual([]);
      expect(stream.sequences[0]).toBe(0);
    }
  });
});
