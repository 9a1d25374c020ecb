import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, type TestContext } from 'vitest';
import { startRig } from '#device/emulated/rig.ts';
import { machineClock } from '#device/machine-clock.ts';
import { freePort, type Program, until } from '#tests/support/programs.ts';
import { RealDay } from '#tests/support/real-day.ts';
import { holesOf, linesOf, streamsOf } from '#tests/support/record-items.ts';
import { hasSocat, NO_SOCAT, SerialPair } from '#tests/support/serial-pair.ts';

const SEED = 37;
const WITHIN_MS = 120_000;

function device(day: RealDay, data: string, boards = ['--emulated', '--seed', `${SEED}`]): Program {
  return day.start('device', [
    ...['log', ...boards, '--data', data, '--receiver', `ws://127.0.0.1:${day.port}/device`],
  ]);
}

async function exitOf(program: Program): Promise<number | null> {
  await until('it has ended', () => program.child.exitCode !== null);
  return program.child.exitCode;
}

/** The first board side ran through it all: its two streams are whole, and nobody else's are there. */
async function firstUnharmed(day: RealDay, dockside: Program, station: Program): Promise<void> {
  await day.flows('at last');
  expect(await station.stop()).toBe(0);
  expect(await dockside.stop()).toBe(0);
  const streams = streamsOf(day.record);
  expect(streams).toHaveLength(2);
  for (const stream of streams) {
    expect(holesOf(stream)).toEqual([]);
    expect(stream.sequences[0]).toBe(0);
    expect(stream.items.at(-1)).toMatchObject({ type: 'stream-closed', reason: 'wanted' });
  }
}

async function inADay(live: (day: RealDay) => Promise<void>): Promise<void> {
  const day = await RealDay.begin();
  try {
    await live(day);
  } finally {
    await day.end();
  }
}

describe.concurrent('two of one', { timeout: WITHIN_MS }, () => {
  it('a second board side with the data folder of the first is refused, the first unharmed', () =>
    inADay(async (day) => {
      const dockside = await day.receiver('--paced');
      const data = join(day.folder, 'station');
      const station = device(day, data);
      await day.twoStreams();
      const second = device(day, data);
      await second.says(/station-folder/);
      expect(await exitOf(second)).toBe(3);

      const copied = join(day.folder, 'copied');
      cpSync(data, copied, { recursive: true, filter: (file) => !file.endsWith('.lock') });
      const third = device(day, copied);
      await third.says(/station-twice/);
      await day.flows('beside the third');
      expect(third.child.exitCode).toBeNull();
      await third.kill();
      await firstUnharmed(day, dockside, station);
      // One connection all along: the clock was paired once.
      const pairings = linesOf(day.record).filter(({ line }) => line.kind === 'station-clock');
      expect(pairings).toHaveLength(1);
    }));

  it('a second receiver of one record is refused; when the first is killed it opens at once', () =>
    inADay(async (day) => {
      const dockside = await day.receiver('--paced');
      const station = device(day, join(day.folder, 'station'));
      await day.twoStreams();
      const second = day.start('receiver', [
        ...['receive', '--paced', '--record', day.record, '--port', `${await freePort()}`],
      ]);
      await second.says(/record-locked/);
      expect(await exitOf(second)).toBe(3);
      await day.flows('beside the second');

      await dockside.kill();
      // No waiting and no clearing away: the system let go of the lock with the process.
      const next = await day.receiver('--paced');
      await firstUnharmed(day, next, station);
    }));
});

describe('a board pulled out of a running day', { timeout: WITHIN_MS }, () => {
  it('goes on in a stream of its own at the same port and at another', async (context) => {
    if (!hasSocat()) skip(context, NO_SOCAT);
    await inADay(replugged);
  });
});

function skip(context: TestContext, reason: string): void {
  console.log(reason);
  context.skip(reason);
}

async function replugged(day: RealDay): Promise<void> {
  const places = ['one', 'one', 'other'] as const;
  const hostOf = (place: string) => join(day.folder, `${place}-host`);
  const dockside = await day.receiver();
  const ports = [...new Set(places)].flatMap((place) => ['--port', hostOf(place)]);
  const station = device(day, join(day.folder, 'station'), ports);
  const rig = startRig({ seed: SEED, pace: 1, wall: machineClock });
  const stream = (k: number) => day.screen.state?.streams[k];
  for (const [k, place] of places.entries()) {
    const pair = await SerialPair.open(day.folder, place);
    await pair.plugIn(rig, 'fore');
    await until(`samples at ${place}, stream ${k}`, () => (stream(k)?.samples ?? 0) >= 50);
    if (k === places.length - 1) expect(await station.stop()).toBe(0);
    await pair.cut();
    await until('the screen is told', () => stream(k)?.open === false);
  }
  await rig.stop();
  expect(await dockside.stop()).toBe(0);

  const streams = streamsOf(day.record);
  const opened = streams.flatMap(({ items: [first] }) =>
    first?.type === 'stream-opened' ? [first] : [],
  );
  expect(opened.map(({ port }) => port)).toEqual(places.map(hostOf));
  expect(new Set(opened.map(({ board }) => board)).size).toBe(1);
  const closed = streams.flatMap(({ items }) => {
    const last = items.at(-1);
    return last?.type === 'stream-closed' ? [last.reason] : [];
  });
  expect(closed).toEqual(['board-lost', 'board-lost', 'wanted']);
  for (const held of streams) {
    expect(holesOf(held)).toEqual([]);
    expect(held.sequences[0]).toBe(0);
  }
}
