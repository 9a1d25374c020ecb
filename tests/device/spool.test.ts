import {
  appendFile,
  mkdir,
  mkdtemp,
  readdir,
  readFile,
  rm,
  stat,
  truncate,
  writeFile,
} from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Spool } from '#device/spool.ts';
import type { StoredItem } from '#device/stream-writer.ts';

const STREAM = 'station/aft/7';
let folder: string;

beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'spool-'));
});
afterEach(async () => {
  await rm(folder, { recursive: true, force: true });
});

function item(number: number, size = 40, stream = STREAM): StoredItem {
  const body = { type: 'samples', stream, number, fill: 'x'.repeat(size) };
  return { stream, number, bytes: Buffer.from(JSON.stringify(body)), closes: false };
}

function closing(number: number): StoredItem {
  const bytes = Buffer.from(JSON.stringify({ type: 'stream-closed', stream: STREAM, number }));
  return { stream: STREAM, number, bytes, closes: true };
}

const open = (mostBytes = 1e8) => Spool.open({ folder, station: 'station', mostBytes });

async function all(spool: Spool, from: number, stream = STREAM): Promise<number[]> {
  const numbers: number[] = [];
  for (let next = from; ; next = numbers.at(-1)! + 1) {
    const items = await spool.read(stream, next);
    if (items.length === 0) return numbers;
    numbers.push(...items.map(({ number }) => number));
  }
}

const range = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, k) => from + k);

describe('the spool', () => {
  it('offers only what is on disk, in order, with the very bytes', async () => {
    const spool = await open();
    for (let n = 0; n < 5; n += 1) expect(spool.take(item(n), false)).toBe(true);
    expect(await spool.read(STREAM, 0)).toEqual([]);
    await spool.flush();
    expect(await all(spool, 0)).toEqual(range(0, 4));
    const [third] = await spool.read(STREAM, 2);
    expect(third!.bytes.equals(item(2).bytes)).toBe(true);
  });

  it('gives everything again after the program died, over many files', async () => {
    const spool = await open();
    for (let n = 0; n < 60; n += 1) {
      spool.take(item(n, 20_000), false);
      await spool.flush();
    }
    expect((await readdir(folder)).length).toBeGreaterThan(3);
    const again = await open();
    expect(again.damage).toEqual([]);
    expect(await all(again, 0)).toEqual(range(0, 59));
    expect(await all(again, 33)).toEqual(range(33, 59));
    expect(await all(spool, 33)).toEqual(range(33, 59));
  });

  it('keeps every whole line when cut at any byte of its last ten lines', async () => {
    const spool = await open();
    for (let n = 0; n < 14; n += 1) spool.take(item(n), false);
    await spool.flush();
    const [name] = await readdir(folder);
    const file = path.join(folder, name!);
    const whole = await readFile(file);
    const ends = [...whole.keys()].filter((at) => whole[at] === 0x0a).map((at) => at + 1);
    for (let length = ends[3]!; length <= whole.length; length += 1) {
      await writeFile(file, whole.subarray(0, length));
      const again = await open();
      const lines = ends.filter((end) => end <= length).length;
      expect(await all(again, 0)).toEqual(range(0, lines - 1));
      const cut = length - ends[lines - 1]!;
      expect(again.damage).toEqual(cut === 0 ? [] : [{ file: name, bytes: cut }]);
      expect((await stat(file)).size).toBe(ends[lines - 1]);
    }
  });

  it('keeps every whole line when zeros or garbage follow from any byte', async () => {
    const spool = await open();
    for (let n = 0; n < 8; n += 1) spool.take(item(n), false);
    await spool.flush();
    const [name] = await readdir(folder);
    const file = path.join(folder, name!);
    const whole = await readFile(file);
    const ends = [...whole.keys()].filter((at) => whole[at] === 0x0a).map((at) => at + 1);
    for (const fill of [0x00, 0x37, 0xff]) {
      for (let from = ends[0]!; from < whole.length - 1; from += 3) {
        await writeFile(
          file,
          Buffer.concat([whole.subarray(0, from), Buffer.alloc(whole.length - from, fill)]),
        );
        const again = await open();
        const kept = await all(again, 0);
        expect(kept).toEqual(range(0, kept.length - 1));
        const lines = ends.filter((end) => end <= from).length;
        // A fill that happens to equal the byte that stood there may leave one line more.
        expect([lines, lines + 1]).toContain(kept.length);
        expect(again.damage).toHaveLength(1);
      }
    }
  });

  it('goes on writing after a torn end was cut off', async () => {
    const spool = await open();
    spool.take(item(0), false);
    spool.take(item(1), false);
    await spool.flush();
    const [name] = await readdir(folder);
    await appendFile(path.join(folder, name!), '12345678 {"half');
    const again = await open();
    expect(again.damage).toEqual([{ file: name, bytes: 15 }]);
    again.take(item(2), false);
    await again.flush();
    expect(await all(await open(), 0)).toEqual([0, 1, 2]);
  });

  it('sets aside what cannot follow damage in the middle, and says how much', async () => {
    const spool = await open();
    for (let n = 0; n < 60; n += 1) {
      spool.take(item(n, 20_000), false);
      await spool.flush();
    }
    const names = (await readdir(folder)).sort(
      (a, b) =>
        Number(a.split('_')[2]!.replace('.spool', '')) -
        Number(b.split('_')[2]!.replace('.spool', '')),
    );
    const second = path.join(folder, names[1]!);
    await truncate(second, (await stat(second)).size - 5);
    const again = await open();
    const kept = await all(again, 0);
    expect(kept).toEqual(range(0, kept.length - 1));
    expect(again.damage.map(({ file }) => file)).toEqual(names.slice(1));
    expect((await readdir(folder)).filter((name) => name.endsWith('.damaged'))).toHaveLength(
      names.length - 2,
    );
  });

  it('forgets what was acknowledged, and a closed stream whole', async () => {
    const spool = await open();
    for (let n = 0; n < 60; n += 1) {
      spool.take(item(n, 20_000), false);
      await spool.flush();
    }
    const before = spool.heldBytes;
    await spool.acknowledge(STREAM, 40);
    expect(spool.heldBytes).toBeLessThan(before * 0.6);
    expect(await all(spool, 41)).toEqual(range(41, 59));
    spool.take(closing(60), true);
    await spool.flush();
    await spool.acknowledge(STREAM, 60);
    expect(await readdir(folder)).toEqual([]);
    expect(spool.streams()).toEqual([]);
    expect(spool.heldBytes).toBe(0);
  });

  it('believes no acknowledgement of what it never stored', async () => {
    const spool = await open();
    spool.take(item(0), false);
    await spool.flush();
    await spool.acknowledge(STREAM, 99);
    spool.take(item(1), false);
    await spool.flush();
    expect(await spool.read(STREAM, 1)).toHaveLength(1);
  });

  it('keeps the oldest at its limit, takes urgent items still, and takes more once there is room', async () => {
    const spool = await open(600_000);
    let taken = 0;
    while (spool.take(item(taken, 10_000), false)) {
      taken += 1;
      await spool.flush();
    }
    expect(taken).toBeGreaterThan(20);
    expect(spool.take(item(taken, 100), true)).toBe(true);
    await spool.flush();
    expect(await all(spool, 0)).toEqual(range(0, taken));
    await spool.acknowledge(STREAM, taken - 1);
    expect(spool.take(item(taken + 1, 10_000), false)).toBe(true);
  });

  it('never refuses for long what could take the place of something acknowledged', async () => {
    const spool = await open(300_000);
    const stored: number[] = [];
    let turnedAway = 0;
    for (let round = 0; round < 200; round += 1) {
      if (spool.take(item(stored.length, 3000), false)) stored.push(stored.length);
      else turnedAway += 1;
      await spool.flush();
      expect(spool.refuses?.code ?? null).toBe(null);
      // The receiver is always three items behind: nothing is ever wholly acknowledged.
      await spool.acknowledge(STREAM, stored.length - 4);
    }
    expect(turnedAway).toBe(0);
    expect(await all(spool, 197)).toEqual([197, 198, 199]);
    expect(await all(await open(), 197)).toEqual([197, 198, 199]);
  });

  it('gives the room of what is acknowledged to other streams, and goes on with the first', async () => {
    const spool = await open(300_000);
    let taken = 0;
    while (spool.take(item(taken, 3000), false)) taken += 1;
    expect(spool.refuses?.code).toBe('spool-full');
    await spool.flush();
    await spool.acknowledge(STREAM, taken - 1);
    await spool.flush();
    expect(spool.heldBytes).toBe(0);
    expect(await readdir(folder)).toEqual([]);
    expect(spool.take(item(0, 3000, 'station/fore/8'), false)).toBe(true);
    expect(spool.refuses).toBeNull();
    expect(spool.take(item(taken), false)).toBe(true);
    await spool.flush();
    expect(await all(spool, taken)).toEqual([taken]);
    expect(await all(await open(), taken)).toEqual([taken]);
  });

  it('holds what a refusing disk did not take, and writes it when it can', async () => {
    const spool = await open();
    await rm(folder, { recursive: true });
    spool.take(item(0), false);
    await spool.flush();
    expect(spool.failing?.code).toBe('spool-disk');
    expect(spool.take(item(1), false)).toBe(false);
    expect(spool.take(item(1), true)).toBe(true);
    expect(await all(spool, 0)).toEqual([]);
    await mkdir(folder);
    await spool.flush();
    expect(spool.failing).toBeNull();
    expect(await all(await open(), 0)).toEqual([0, 1]);
  });

  it('keeps several streams apart', async () => {
    const spool = await open();
    const other = 'station/fore/8';
    for (let n = 0; n < 3; n += 1) {
      spool.take(item(n), false);
      spool.take(item(n, 40, other), false);
    }
    await spool.flush();
    const again = await open();
    expect(again.streams().map(({ stream, storedNumber }) => [stream, storedNumber])).toEqual([
      [STREAM, 2],
      [other, 2],
    ]);
    expect(await all(again, 0, other)).toEqual([0, 1, 2]);
  });
});
