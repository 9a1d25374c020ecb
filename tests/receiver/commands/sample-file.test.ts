import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { rowsFromFile } from '#receiver/commands/sample-file.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'samples-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

function rowsOf(bytes: Uint8Array | string): number[] {
  const path = join(folder, 'samples.csv');
  writeFileSync(path, bytes);
  const times: number[] = [];
  rowsFromFile(path, { columns: () => undefined, row: (timeS) => times.push(timeS) });
  return times;
}

describe('a file of samples', () => {
  it('longer than a piece is read whole, umlauts across the cut included', () => {
    const rows = Array.from({ length: 40_000 }, (_, k) => `${k},1\n# Übertiefe\n`).join('');
    const times = rowsOf(`t,Kränkung (°)\n${rows}`);
    expect(times).toHaveLength(40_000);
    expect(times.every((time, k) => time === k)).toBe(true);
  });

  it('that is not there, not UTF-8 or empty is refused', () => {
    expect(() => rowsOf(new Uint8Array([0xff, 0xfe, 0x30, 0x00]))).toThrow(/table-encoding/);
    expect(() => rowsOf(Buffer.from('302c310a23e9', 'hex'))).toThrow(/table-encoding/);
    expect(() => rowsOf('')).toThrow(/input-too-few/);
    const none = { columns: () => undefined, row: () => undefined };
    expect(() => rowsFromFile(join(folder, 'none.csv'), none)).toThrow(/file-not-readable/);
    expect(() => rowsFromFile(folder, none)).toThrow(/file-not-readable/);
  });
});
