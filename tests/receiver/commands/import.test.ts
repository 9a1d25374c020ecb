import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import writeXlsx from 'write-excel-file/node';
import { registerImport } from '#receiver/commands/import.ts';

let folder: string;
let said = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'import-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  process.exitCode = undefined;
  vi.restoreAllMocks();
});

async function run(...args: string[]): Promise<number> {
  said = '';
  vi.spyOn(console, 'log').mockImplementation((words: string) => {
    said += words;
  });
  vi.spyOn(console, 'error').mockImplementation(() => undefined);
  process.exitCode = undefined;
  const program = new Command().exitOverride();
  registerImport(program);
  await program.parseAsync(['import', ...args], { from: 'user' });
  return Number(process.exitCode ?? 0);
}

it('reads a workbook with a title, merged headings, a row of units and blank rows', async () => {
  const path = join(folder, 'weights.xlsx');
  const row = (...values: (string | number | null)[]) =>
    values.map((value) => (value === null ? null : { value }));
  await writeXlsx([
    row('Weights of 4 May'),
    row(null),
    [null, null, null, { value: 'Centre', columnSpan: 3 as const }, null, null],
    row('weight', 'mass', 'uncertainty', 'x', 'y', 'z'),
    row('-', 'kg', 'kg', 'm', 'm', 'm'),
    row('A', 250, 0.2, 4, -2, 2.05),
    row(null),
    row('B', 249.5, 0.2, 4, 2, 2.05),
    row('Total', 499.5),
  ]).toFile(path);
  const out = join(folder, 'weights.json');
  expect(await run(path, '--as', 'weights', '--out', out)).toBe(0);
  expect(JSON.parse(readFileSync(out, 'utf8'))).toMatchObject([
    { weight: 'A', massT: 0.25, at: { xM: 4, yM: -2, zM: 2.05 } },
    { weight: 'B', massT: 0.2495 },
  ]);
  expect(said).toContain('2 rows taken, 0 refused, 2 passed over');
});

it('shows refused rows with their reason and writes nothing then', async () => {
  const path = join(folder, 'lines.csv');
  const out = join(folder, 'out.csv');
  writeFileSync(path, 'x;z;half breadth (mm)\n0;0,66;0\n0;0,77;seven\n');
  expect(await run(path, '--as', 'offsets', '--out', out)).toBe(4);
  expect(said).toContain('row 3 refused: halfBreadthM: "seven" is no number');
  expect(() => readFileSync(out)).toThrow();
  writeFileSync(path, 'x;z;half breadth (mm)\n0;0,66;0\n0;0,77;702\n');
  expect(await run(path, '--as', 'offsets', '--out', out)).toBe(0);
  expect(readFileSync(out, 'utf8')).toBe('xM,zM,halfBreadthM\r\n0,0.66,0\r\n0,0.77,0.702\r\n');
});

it('refuses a table that is none', async () => {
  const path = join(folder, 'a.xlsx');
  writeFileSync(path, 'PK no workbook');
  expect(await run(path, '--as', 'items')).toBe(3);
  writeFileSync(join(folder, 'a.csv'), 'one,two\n1,2\n');
  expect(await run(join(folder, 'a.csv'), '--as', 'items', '--json')).toBe(3);
});
