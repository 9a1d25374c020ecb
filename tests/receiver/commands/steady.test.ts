import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { JudgedRecording } from '#core/steadiness/judge-recording.ts';
import { steadyOutput } from '#core/steadiness/recording-output.ts';
import { registerSteady } from '#receiver/commands/steady.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'steady-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  process.exitCode = undefined;
  vi.restoreAllMocks();
});

async function run(text: string | null, ...options: string[]) {
  const out = vi.spyOn(console, 'log').mockImplementation(() => undefined);
  const err = vi.spyOn(console, 'error').mockImplementation(() => undefined);
  const path = join(folder, 'samples.csv');
  if (text !== null) writeFileSync(path, text);
  const program = new Command();
  registerSteady(program);
  await program.parseAsync(['steady', path, ...options], { from: 'user' });
  return {
    out: out.mock.calls.flat().join('\n'),
    err: err.mock.calls.flat().join('\n'),
    exit: process.exitCode ?? 0,
  };
}

describe('heelwright steady', () => {
  const rows = simulatedHeel({ seed: 4, lengthS: 120, rollDeg: 0.06 }).map(
    (heel, k) => [k / 10, heel] as const,
  );

  it('reads the same from a comma table and one with decimal commas, as words and as JSON', async () => {
    const comma = rows.map(([t, heel]) => `${t},${heel}`).join('\n');
    const semicolon = rows.map(([t, heel]) => `${t};${heel}`.replaceAll('.', ',')).join('\r\n');
    const words = await run(`timeS,heelDeg\n${comma}`);
    expect(words.exit).toBe(0);
    expect(words.out).toMatch(
      /steady: ±0\.00\d° over \d+ s\n {4}heel 1\.2\d+ ± 0\.0\d+ degree \(95 %\)/,
    );
    vi.restoreAllMocks();
    const first = JSON.parse((await run(comma, '--json')).out) as JudgedRecording;
    vi.restoreAllMocks();
    const second = JSON.parse((await run(semicolon, '--json')).out) as JudgedRecording;
    expect(second).toEqual(first);
    expect(steadyOutput.parse(first)).toEqual(first);
    expect(first.stretches.at(-1)!.verdict).toBe('steady');
  });

  it('is steady earlier for a coarser target', async () => {
    const text = rows.map(([t, heel]) => `${t},${heel}`).join('\n');
    const steadyFrom = async (target: string) => {
      vi.restoreAllMocks();
      const { out } = await run(text, '--json', '--accuracy', target);
      const judged = JSON.parse(out) as JudgedRecording;
      return judged.stretches.find(({ verdict }) => verdict === 'steady')!.fromS;
    };
    expect(await steadyFrom('0.02')).toBeLessThan(await steadyFrom('0.004'));
  });

  it('refuses bad input by code and place, exit 3, and bad usage, exit 2', async () => {
    const bad = await run('timeS,heelDeg\n0,1\n0.1,oops\n', '--json');
    expect(bad.exit).toBe(3);
    expect(JSON.parse(bad.err)).toMatchObject({ code: 'table-field', where: 'line 3, column 2' });
    vi.restoreAllMocks();
    expect((await run(null)).exit).toBe(3);
    vi.restoreAllMocks();
    rmSync(join(folder, 'samples.csv'), { force: true });
    expect((await run(null)).err).toMatch(/file-not-readable/);
    vi.restoreAllMocks();
    expect((await run('0,1\n1,1', '--accuracy', 'none')).exit).toBe(2);
  });
});
