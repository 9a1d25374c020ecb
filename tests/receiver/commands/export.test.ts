import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { registerExport } from '#receiver/commands/export.ts';
import { everyKindRecord } from '#tests/support/every-kind-record.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'export-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  process.exitCode = undefined;
  vi.restoreAllMocks();
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
  if (checked.error === undefined) expect(checked.stdout.match(/: OK/g)).toHaveLength(4);
});

it('writes into no folder that is there, and exports no record that does not hold', async () => {
  const record = join(folder, 'day.hwr');
  const { bytes } = everyKindRecord(3);
  writeFileSync(record, bytes);
  expect(await run(record, folder)).toBe(3);
  writeFileSync(record, Buffer.from(bytes).fill(0x20, 400, 401));
  expect(await run(record, join(folder, 'out'))).toBe(3);
});
