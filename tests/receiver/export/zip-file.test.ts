import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { ZipFile } from '#receiver/export/zip-file.ts';
import { nodeSha256Hex } from '#receiver/node-digest.ts';
import { unzipped } from '#tests/support/unzipped.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'zip-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const LARGE = Buffer.from('a line that comes again\n'.repeat(100_000));
function zip(name: string, wall = '2026-05-04T16:00:00.000Z'): { path: string; digests: string[] } {
  const path = join(folder, name);
  const file = new ZipFile(path, wall);
  const piece = Buffer.alloc(7);
  const digests = [
    file.add('large.txt', (write) => {
      // Handed in one buffer that is written over, as a file is read.
      for (let at = 0; at < LARGE.length; at += 7) {
        const got = LARGE.copy(piece, 0, at, at + 7);
        write(piece.subarray(0, got));
      }
    }),
    file.add('empty.txt', () => {}),
    file.add('Ελπίδα.csv', (write) => write(Buffer.from('a,b\r\n'))),
  ];
  file.close();
  return { path, digests };
}

it('gives every byte back, packed, under its name, and tells its digest', () => {
  const { path, digests } = zip('a.zip');
  const files = unzipped(readFileSync(path));
  expect([...files.keys()]).toEqual(['large.txt', 'empty.txt', 'Ελπίδα.csv']);
  expect(files.get('large.txt')!.equals(LARGE)).toBe(true);
  expect(files.get('empty.txt')).toHaveLength(0);
  expect(digests).toEqual([...files.values()].map((bytes) => nodeSha256Hex(bytes)));
  expect(readFileSync(path).length).toBeLessThan(LARGE.length / 10);
});

it('is the same bytes from the same contents and date', () => {
  const first = readFileSync(zip('a.zip').path);
  expect(first.equals(readFileSync(zip('b.zip').path))).toBe(true);
  expect(first.equals(readFileSync(zip('c.zip', '2026-05-05T16:00:00.000Z').path))).toBe(false);
});

it('is written over no file', () => {
  writeFileSync(join(folder, 'a.zip'), 'mine');
  expect(() => zip('a.zip')).toThrow(/file-not-writable/);
  expect(readFileSync(join(folder, 'a.zip'), 'utf8')).toBe('mine');
});
