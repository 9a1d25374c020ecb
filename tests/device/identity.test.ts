import { mkdtemp, readFile, rm, stat, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { streamId } from '#core/sample/stream-item.ts';
import { StationIdentity } from '#device/identity.ts';
import { lockStation } from '#device/station-lock.ts';
import { faultOf } from './support/scripted-bus.ts';

let folder: string;
beforeEach(async () => {
  folder = path.join(await mkdtemp(path.join(os.tmpdir(), 'identity-')), 'station');
});
afterEach(async () => {
  await rm(path.dirname(folder), { recursive: true, force: true });
});

describe('the station', () => {
  it('stays itself over starts', async () => {
    const first = await StationIdentity.open(folder);
    const second = await StationIdentity.open(folder);
    expect(second.station).toBe(first.station);
    expect(second.publicKey).toBe(first.publicKey);
    expect(first.publicKey).toMatch(/^[A-Za-z0-9_-]{43}$/);
  });

  it('names no stream twice, also when asked at once and after a crash', async () => {
    const first = await StationIdentity.open(folder);
    const names = await Promise.all(
      ['aft', 'fore', 'aft', 'fore'].map((board) => first.nextStream(board)),
    );
    // The counter is on disk before a name is given out, so a new start after a kill goes on from it.
    names.push(await (await StationIdentity.open(folder)).nextStream('aft'));
    expect(new Set(names.map((name) => name.split('/')[2])).size).toBe(5);
    for (const name of names) expect(streamId.safeParse(name).success).toBe(true);
  });

  it('keeps its file for its owner only', async () => {
    await StationIdentity.open(folder);
    if (process.platform === 'win32') return;
    expect((await stat(path.join(folder, 'station.json'))).mode & 0o777).toBe(0o600);
    expect((await stat(folder)).mode & 0o777).toBe(0o700);
  });

  it.each(['', '{"v":1', '{"v":2}', 'zeros'])(
    'guesses nothing from a damaged file (%s)',
    async (text) => {
      await StationIdentity.open(folder);
      await writeFile(
        path.join(folder, 'station.json'),
        text === 'zeros' ? Buffer.alloc(200) : text,
      );
      expect(await faultOf(StationIdentity.open(folder))).toBe('station-folder');
    },
  );

  it('refuses a key that is none', async () => {
    await StationIdentity.open(folder);
    const file = path.join(folder, 'station.json');
    const kept: { privateKey: string } = JSON.parse(await readFile(file, 'utf8'));
    await writeFile(file, JSON.stringify({ ...kept, privateKey: 'AAAA' }));
    expect(await faultOf(StationIdentity.open(folder))).toBe('station-folder');
  });
});

describe('the lock of a data folder', () => {
  it('lets one program in at a time, and the next when it is gone', async () => {
    await StationIdentity.open(folder);
    const release = await lockStation(folder);
    expect(await faultOf(lockStation(folder))).toBe('station-folder');
    await release();
    const again = await lockStation(folder);
    await again();
  });

  it('is not held by a socket whose program was killed', async () => {
    await StationIdentity.open(folder);
    if (process.platform === 'win32') return;
    await writeFile(path.join(folder, 'station.lock'), '');
    const release = await lockStation(folder);
    await release();
  });
});
