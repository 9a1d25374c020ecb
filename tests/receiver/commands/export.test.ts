import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { registerExport } from '#receiver/commands/export.ts';
import { everyKindRecord } from '#tests/support/every-kind-record.ts';
import { unzipped } from '#tests/support/unzipped.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'export-'));
  vi.stubEnv('HEELWRIGHT_PROGRAMS', join(import.meta.dirname, '../../../.build/programs'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  process.exitCode = undefined;
  vi.restoreAllMocks();
  vi.unstubAllEnvs();
});

async function run(...args: string[]): Promise<number> {
  vi.spyOn(console, 'log').mockImplementation(() => undefined);
  vi.spyOn(console, 'error').mockImplementation(() => undefined);
  process.exitCode = undefined;
  const program = new Command();
  registerExport(program);
  await program.parseAsync(['export', ...args], { from: 'user' });
  return Number(process.exitCode ?? 0);
}

it('copies the record byte for byte and names every file by its digest', async () => {
  const record = join(folder, 'day.hwr');
  writeFileSync(record, everyKindRecord(3).bytes);
  const out = join(folder, 'out');
  expect(await run(record, out)).toBe(0);
  expect(readFileSync(join(out, 'day.hwr')).equals(readFileSync(record))).toBe(true);
  expect(readFileSync(join(out, 'readings.csv'), 'utf8')).toMatch(/^state,line,wall,/);
  expect(JSON.parse(readFileSync(join(out, 'result.json'), 'utf8'))).toHaveProperty('version', 1);
  // Checked by a tool that is not ours.
  const checked = spawnSync('sha256sum', ['-c', 'SHA256SUMS'], { cwd: out, encoding: 'utf8' });
  if (checked.error === undefined) expect(checked.stdout.match(/: OK/g)).toHaveLength(12);
});

it('makes one ZIP of it that its own scripts verify with Node or Python alone, and that shows what was changed', async () => {
  const record = join(folder, 'day.hwr');
  writeFileSync(record, everyKindRecord(3).bytes);
  const out = join(folder, 'handed.zip');
  expect(await run(record, out)).toBe(0);
  const open = join(folder, 'open');
  mkdirSync(open);
  for (const [name, bytes] of unzipped(readFileSync(out))) writeFileSync(join(open, name), bytes);
  const scripts = [
    [process.execPath, 'verify.mjs'],
    ['python3', 'verify.py'],
  ] as const;
  const verified = () =>
    scripts.flatMap(([program, script]) => {
      const { error, status } = spawnSync(program, [script], { cwd: open });
      // Without Python on the machine there is nothing to be tried.
      return error === undefined ? [status] : [];
    });
  const changeAnd = (name: string, change: (bytes: Buffer) => Buffer) => {
    const bytes = readFileSync(join(open, name));
    writeFileSync(join(open, name), change(bytes));
    const found = verified();
    writeFileSync(join(open, name), bytes);
    return found;
  };
  expect(new Set(verified())).toEqual(new Set([0]));
  expect(new Set(changeAnd('readings.csv', (bytes) => Buffer.concat([bytes, bytes])))).toEqual(
    new Set([1]),
  );
  expect(
    new Set(
      changeAnd('day.hwr', (bytes) =>
        Buffer.from(bytes.toString('latin1').replace('a wake', 'a tide'), 'latin1'),
      ),
    ),
  ).toEqual(new Set([1]));
  const counts = readFileSync(join(open, 'counts-1.csv'), 'utf8').trim().split('\r\n');
  // Three blocks of the record, as its lines have them.
  expect(counts[0]).toMatch(/^block,sequence,boardUs,0 /);
  expect(new Set(counts.slice(1).map((row) => row.split(',')[0])).size).toBe(3);
  const schema = JSON.parse(readFileSync(join(open, 'reduction.schema.json'), 'utf8')) as object;
  expect(schema).toHaveProperty('properties.heelwrightReduction');
});

it('writes into no folder that is there, and exports no record that does not hold', async () => {
  const record = join(folder, 'day.hwr');
  const { bytes } = everyKindRecord(3);
  writeFileSync(record, bytes);
  expect(await run(record, folder)).toBe(3);
  writeFileSync(record, Buffer.from(bytes).fill(0x20, 400, 401));
  expect(await run(record, join(folder, 'out'))).toBe(3);
});
