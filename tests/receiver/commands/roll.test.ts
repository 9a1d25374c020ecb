import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type RollHistory, rollHistory } from '#core/reduction/roll-history.ts';
import { type RollOutput, rollOutput } from '#core/reduction/roll-output.ts';
import { registerRoll } from '#receiver/commands/roll.ts';
import { releasedRoll } from '../../support/free-roll.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'roll-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  process.exitCode = undefined;
  vi.restoreAllMocks();
});

async function run(text: string, ...options: string[]) {
  vi.restoreAllMocks();
  process.exitCode = undefined;
  const out = vi.spyOn(console, 'log').mockImplementation(() => undefined);
  const err = vi.spyOn(console, 'error').mockImplementation(() => undefined);
  const path = join(folder, 'samples.csv');
  writeFileSync(path, text);
  const program = new Command();
  registerRoll(program);
  await program.parseAsync(['roll', path, ...options], { from: 'user' });
  return {
    out: out.mock.calls.flat().join('\n'),
    err: err.mock.calls.flat().join('\n'),
    exit: process.exitCode ?? 0,
  };
}

const json = async (text: string, ...options: string[]) =>
  JSON.parse((await run(text, '--json', ...options)).out) as RollOutput;

describe('heelwright roll', () => {
  const record = releasedRoll({
    lengthS: 200,
    noiseDeg: 0.005,
    releases: [5, 70, 135].map((atS) => ({ atS, heelDeg: 2 })),
  });
  const rows = record.timeS.map((time, k) => [time.toFixed(3), record.heelDeg[k]!] as const);
  const comma = rows.map(([time, heel]) => `${time},${heel}`).join('\n');

  it('gives period and damping of three runs from any form of table, in the form of the schema', async () => {
    const first = await json(`timeS,heelDeg\n${comma}`);
    expect(rollOutput.parse(first)).toEqual(first);
    expect(first.period).toMatchObject({ runs: 3, enough: true });
    expect(first.period!.periodS.value).toBeCloseTo(5.004, 3);
    expect(first.period!.dampingRatio.value).toBeCloseTo(0.04, 3);
    const semicolon = `time;heelDeg\r\ns;deg\r\n${rows
      .map(([time, heel]) => `${time};${heel}`.replaceAll('.', ','))
      .join('\r\n')}`;
    expect(await json(semicolon)).toEqual(first);
    const gap = rows.filter(([time]) => Number(time) < 64 || Number(time) > 68);
    const irregular = gap.filter((_, k) => (k * 7919) % 10 < 8);
    const third = await json(irregular.map(([time, heel]) => `${time},${heel}`).join('\n'));
    expect(third.period!.periodS.value).toBeCloseTo(5.004, 3);
  });

  it('says in words what it found, with GM by the coefficient and its scatter', async () => {
    const { out, exit } = await run(comma, '--beam', '5', '--coefficient', 'deep-sea');
    expect(exit).toBe(0);
    expect(out).toMatch(
      / {2}7\.5 to \d+\.\d s {2}\d+\.\d cycles, 1\.76 falling to .* period 5\.00\d+ ± /,
    );
    expect(out).toMatch(/Roll period, by column 2:\n {2}5\.00\d+ ± 0\.000\d+ s \(95 %\)/);
    expect(out).toMatch(/f 0\.8: 0\.639 ± 0\.080 m \(deep-sea fishing boat/);
  });

  it('asks for three runs where there are fewer, and only looks where it is told', async () => {
    const one = await run(comma, '--run', '60:130');
    expect(one.out).toMatch(/1 of 3 runs asked/);
    expect((await json(comma, '--run', '0:68', '60:130')).period!.runs).toBe(2);
    expect((await run(comma, '--run', '900:990', '--json')).err).toMatch(/input-range/);
  });

  it('refuses forced rolling with its reason, exit 4', async () => {
    const forced = rows.map(([time]) => `${time},${Math.sin(1.25 * Number(time))}`).join('\n');
    const { out, exit } = await run(forced);
    expect(exit).toBe(4);
    expect(out).toMatch(/refused \(not-decaying\): the amplitude is not seen to fall/);
    expect(out).toMatch(/No free roll is seen in this record/);
  });

  it('keeps her own coefficient and uses it on a later day', async () => {
    const history = join(folder, 'history.json');
    const day = ['--beam', '5', '--condition', 'as inclined', '--history', history, '--keep'];
    const gm = ['--gm', '0.64', '--gm-uncertainty', '0.004'];
    await run(comma, ...day, '--date', '2020-05-01', '--vessel', 'Marram', ...gm);
    const later = await run(comma, ...day, '--date', '2024-05-01');
    expect(later.out).toMatch(
      /f 0\.800\d?: 0\.640\d* ± 0\.0\d+ m \(her own, measured 2020-05-01: as inclined\)/,
    );
    expect(later.out).toMatch(
      /Marram over the years:\n {2}2020-05-01 .*\n {2}2024-05-01 .*\nNo change/,
    );
    const kept = JSON.parse(readFileSync(history, 'utf8')) as RollHistory;
    expect(rollHistory.parse(kept).tests.map(({ date }) => date)).toEqual([
      '2020-05-01',
      '2024-05-01',
    ]);
    const other = await run(comma, ...day.with(1, '6'), '--date', '2025-01-01', '--json');
    expect(other.exit).toBe(3);
    expect(JSON.parse(other.err)).toMatchObject({ code: 'input-contradiction' });
  });

  it('refuses bad files by code and place, exit 3, and bad usage, exit 2', async () => {
    const bad = await run('timeS,heelDeg\n0,1\n0.1,oops\n', '--json');
    expect(bad.exit).toBe(3);
    expect(JSON.parse(bad.err)).toMatchObject({ code: 'table-field', where: 'line 3, column 2' });
    expect((await run(comma, '--coefficient', 'none')).err).toMatch(/known are empty/);
    const usage = [
      ['--beam', '-1'],
      ['--gm', '1'],
      ['--run', '5'],
      ['--date', 'May'],
      ['--keep'],
      ['--gm', '1', '--gm-uncertainty', 'x'],
    ];
    for (const options of usage) expect((await run(comma, ...options)).exit).toBe(2);
  });
});
