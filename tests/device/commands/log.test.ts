import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { StationEvent } from '#device/events.ts';
import { sequencesOf, TestReceiver, until } from '../support/test-receiver.ts';

const PROGRAM = path.join(process.env['HEELWRIGHT_PROGRAMS'] ?? '', 'device.mjs');
let folder: string;
let receiver: TestReceiver;
let children: ChildProcess[];

beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'log-'));
  receiver = new TestReceiver();
  children = [];
});
afterEach(async () => {
  for (const child of children) if (child.exitCode === null) child.kill('SIGKILL');
  await receiver.close();
  await rm(folder, { recursive: true, force: true });
});

/** The real program in a process of its own. */
function start(...args: string[]) {
  const child = spawn(process.execPath, [PROGRAM, ...args], { stdio: ['pipe', 'pipe', 'pipe'] });
  children.push(child);
  const said = { out: '', err: '' };
  child.stdout.on('data', (bytes: Buffer) => {
    said.out += bytes.toString();
  });
  child.stderr.on('data', (bytes: Buffer) => {
    said.err += bytes.toString();
  });
  const ended = new Promise<number | null>((resolve) =>
    child.once('close', (code) => resolve(code)),
  );
  const events = () =>
    said.out
      .split('\n')
      .slice(0, -1)
      .map((line): StationEvent => JSON.parse(line));
  return { child, said, ended, events };
}

const emulated = (url: string, ...more: string[]) => [
  ...['log', '--emulated', '--seed', '4', '--pace', '10', '--json'],
  ...['--pair', 'a'.repeat(22)],
  ...['--data', path.join(folder, 'station'), '--receiver', url],
  ...more,
];

const samples = () =>
  [...receiver.streams.keys()].reduce(
    (sum, stream) => sum + sequencesOf(receiver.items(stream)).length,
    0,
  );

describe('heelwright log', () => {
  it('loses nothing it had on disk and sends nothing twice, however often it is killed', {
    timeout: 90_000,
  }, async () => {
    const url = await receiver.listen();
    let kept = 0;
    for (const afterSamples of [150, 400, 250]) {
      const { child, ended } = start(...emulated(url));
      await until(() => samples() >= kept + afterSamples, `${afterSamples} samples more`);
      child.kill('SIGKILL');
      await ended;
      kept = samples();
    }
    const { child, ended, events } = start(...emulated(url));
    await until(() => samples() >= kept + 200, 'samples of the last run');
    child.kill('SIGTERM');
    expect(await ended).toBe(0);
    expect(receiver.broken).toEqual([]);
    for (const stream of receiver.streams.keys()) {
      const items = receiver.items(stream);
      expect(items[0]).toMatchObject({ type: 'stream-opened', number: 0 });
      const sequences = sequencesOf(items);
      const skipped = items.reduce(
        (sum, item) => sum + (item.type === 'samples' ? item.skipped : 0),
        0,
      );
      if (sequences.length > 0) {
        expect(sequences.at(-1)! - sequences[0]! + 1).toBe(sequences.length + skipped);
        expect(new Set(sequences).size).toBe(sequences.length);
      }
    }
    // One station and the same two boards all the time, each start of the program its own run.
    const openings = [...receiver.streams.values()].map(([first]) => first!.item);
    const values = (field: string) =>
      new Set(openings.map((item) => (item as Record<string, unknown>)[field]));
    expect(values('station').size).toBe(1);
    expect(values('board').size).toBe(2);
    expect(values('run').size).toBe(4);
    expect(events().filter((event) => event.event === 'stream-closed')).toHaveLength(2);
  });

  it('scans at the rate it is told, every channel with it', async () => {
    const { events } = start(...emulated(await receiver.listen(), '--rate', '200'));
    await until(() => receiver.streams.size === 2 && samples() > 600, 'samples');
    const periods = events().flatMap((event) => (event.event === 'stream' ? [event.periodUs] : []));
    expect(periods).toEqual([5000, 5000]);
    for (const stream of receiver.streams.keys()) {
      for (const item of receiver.items(stream)) {
        if (item.type !== 'samples') continue;
        expect(item.skipped).toBe(0);
        expect(new Set(item.stepUs.slice(1))).toEqual(new Set([5000]));
      }
    }
  });

  it('tells the receiver that its vessel is simulated, and how she is', async () => {
    const { child, ended } = start(...emulated(await receiver.listen(), '--uncalibrated', 'fore'));
    await until(() => receiver.said.some(({ type }) => type === 'simulation-status'), 'her status');
    const hello = receiver.said.find((message) => message.type === 'hello');
    expect(hello).toMatchObject({
      simulated: {
        simulation: { seed: 4, paceAsked: 10 },
        test: { vessel: 'Marram', mode: 'demo' },
      },
    });
    expect(hello?.mountings.map(({ instrument }) => instrument)).toEqual(['fore', 'aft', 'tube']);
    expect(hello?.certificates.map(({ instrument }) => instrument)).toEqual(['aft', 'tube']);
    child.kill('SIGTERM');
    expect(await ended).toBe(0);
  });

  it('lets no second program use its folder', async () => {
    const url = await receiver.listen();
    const first = start(...emulated(url));
    await until(() => first.events().length > 0, 'the first to run');
    const second = start(...emulated(url));
    expect(await second.ended).toBe(3);
    expect(second.said.err).toContain('station-folder');
    first.child.kill('SIGTERM');
    expect(await first.ended).toBe(0);
  });

  it('ends with who supervises it', async () => {
    const { child, ended, events } = start(...emulated(await receiver.listen(), '--supervised'));
    await until(() => events().length > 0, 'it to run');
    child.stdin?.end();
    expect(await ended).toBe(0);
  });

  it.each([
    [0, ['--help'], 'log'],
    [0, ['log', '--help'], 'heelwright log --emulated --seed 7 --pace 5'],
    [0, ['ports', '--help'], 'heelwright ports --port'],
    [2, ['log', '--pace', '99'], '--pace'],
    [2, ['log', '--rate', '500'], '--rate'],
    [2, ['log', '--seed', '1.5'], '--seed'],
    [2, ['log', '--sail'], '--sail'],
    [2, ['drift'], 'drift'],
    [2, ['ports', '--name', 'aft'], '--name'],
    [3, ['log', '--receiver', 'ws://192.168.1.4'], 'link-not-private'],
    [3, ['ports', '--port', '/dev/none-such'], 'port-not-open'],
  ])('ends with %i on %j', async (code, args, words) => {
    const { ended, said } = start(...args);
    expect(await ended).toBe(code);
    expect(said.out + said.err).toContain(words);
  });
});
