import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { TokenStore } from '#receiver/access/token-store.ts';
import { randomBytesFromSeed } from '#tests/support/seeded.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tokens-'));
});
afterEach(() => rmSync(folder, { recursive: true }));
const opened = () => new TokenStore(folder, randomBytesFromSeed(7));
const WALL = '2026-11-25T08:00:00.000Z';

describe('tokens', () => {
  it('are found again after a restart, by their digests alone', () => {
    const { token, sha256 } = opened().add('witness', 'M. Quill', WALL);
    const file = join(folder, 'access.json');
    expect(readFileSync(file, 'utf8')).not.toContain(token);
    if (process.platform !== 'win32') expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(opened().find(token)).toEqual({
      sha256,
      role: 'witness',
      name: 'M. Quill',
      admitted: WALL,
    });
    expect(opened().find(sha256)).toBeUndefined();
    expect(opened().find('')).toBeUndefined();
  });

  it('are withdrawn for good', () => {
    const store = opened();
    const { token, sha256 } = store.add('architect', 'E. Thorne', WALL);
    store.withdraw(sha256);
    expect(store.find(token)).toBeUndefined();
    expect(opened().find(token)).toBeUndefined();
  });

  it('refuse a file that is none of ours, instead of letting everybody in or nobody', () => {
    const file = join(folder, 'access.json');
    writeFileSync(file, '{"tokens":[{"sha256":"x","role":"owner"}],"stations":[]}');
    expect(opened).toThrowError(/^input-shape/);
    writeFileSync(file, 'not JSON');
    expect(opened).toThrowError(/^input-not-json/);
  });
});

it('a station is held to the key it first came with, over restarts', () => {
  opened().holdStation('station-1', 'A'.repeat(43));
  const store = opened();
  store.holdStation('station-1', 'A'.repeat(43));
  store.holdStation('station-2', 'B'.repeat(43));
  expect(() => store.holdStation('station-1', 'B'.repeat(43))).toThrowError(/^station-not-the-one/);
});
