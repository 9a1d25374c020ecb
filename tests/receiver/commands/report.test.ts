import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { registerReport } from '#receiver/commands/report.ts';
import { everyKindRecord } from '#tests/support/every-kind-record.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'report-'));
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
  registerReport(program);
  await program.parseAsync(['report', ...args], { from: 'user' });
  return Number(process.exitCode ?? 0);
}

it('writes the report of a record in which every kind of line stands, twice alike, never over a file', async () => {
  const record = join(folder, 'day.hwr');
  writeFileSync(record, everyKindRecord(3).bytes);
  expect(await run(record)).toBe(0);
  expect(await run(record, '--out', join(folder, 'again.pdf'))).toBe(0);
  const first = readFileSync(join(folder, 'day-report.pdf'));
  expect(first.subarray(0, 8).toString()).toBe('%PDF-1.7');
  expect(first.equals(readFileSync(join(folder, 'again.pdf')))).toBe(true);
  expect(await run(record)).toBe(3);
});

it('writes the witness’s sheet and the certificates of a record too, and knows no other document', async () => {
  const record = join(folder, 'day.hwr');
  writeFileSync(record, everyKindRecord(3).bytes);
  for (const document of ['witness-sheet', 'certificates']) {
    expect(await run(record, '--document', document)).toBe(0);
    expect(
      readFileSync(join(folder, `day-${document}.pdf`))
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
  }
});

it('reports no record that does not hold', async () => {
  const record = join(folder, 'day.hwr');
  writeFileSync(record, Buffer.from(everyKindRecord(3).bytes).fill(0x20, 400, 401));
  expect(await run(record)).toBe(3);
  writeFileSync(record, '');
  expect(await run(record)).toBe(3);
});
