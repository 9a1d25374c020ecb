import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterAll, afterEach, describe, expect, it, vi } from 'vitest';
import { loadingOutput } from '#core/limits/limits-output.ts';
import { registerStability } from '#receiver/commands/stability.ts';
import { BOX_LOADING } from '#tests/core/stability/box-loading.ts';

const folder = mkdtempSync(join(tmpdir(), 'stability-'));
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => {
  vi.restoreAllMocks();
  process.exitCode = undefined;
});
writeFileSync(
  join(folder, 'box.csv'),
  `xM,zM,halfBreadthM\n${[0, 5, 10, 15, 20].map((x) => `${x},0,0\n${x},0,3\n${x},3,3\n`).join('')}`,
);
const marram = new URL('../../../device/emulated/marram-loading.json', import.meta.url).pathname;

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, JSON.stringify(content));
  return path;
}
const BOX = { ...BOX_LOADING, hull: 'box.csv' };

async function run(...words: string[]) {
  const said: string[] = [];
  const complained: string[] = [];
  vi.spyOn(console, 'log').mockImplementation((text: string) => void said.push(text));
  vi.spyOn(console, 'error').mockImplementation((text: string) => void complained.push(text));
  const program = new Command('heelwright').exitOverride();
  registerStability(program);
  await program.parseAsync(['stability', ...words], { from: 'user' });
  const exit = Number(process.exitCode ?? 0);
  return { said: said.join('\n'), complained: complained.join('\n'), exit };
}

describe('stability CONDITION', () => {
  it('judges the demo vessel in words, with what is to be settled and what is not judged', async () => {
    const { said, exit } = await run(marram, '--only', 'lifting a buoy over the side');
    expect(exit).toBe(4);
    expect(said).toMatch(/^Marram \(an invented vessel\)/);
    expect(said).toMatch(/not met/);
    expect(said).toMatch(/a heavier net drum: what was changed has no mass/);
    expect(said).toMatch(/This is no approval/);
    expect(said).not.toMatch(/\bsafe\b|\bapproved\b/i);
  });

  it('answers as JSON in the form of its schema', async () => {
    const { said } = await run(file('a.json', BOX), '--only', 'light', '--json');
    const answer = loadingOutput.parse(JSON.parse(said));
    expect(answer.conditions.map(({ condition }) => condition)).toEqual(['light']);
    // 170 t of 1.025 in a box of 20 m x 6 m
    expect(answer.conditions[0]!.draughtMeanM).toBeCloseTo(170 / 1.025 / 120, 9);
  });

  it('exits 0 where all that is judged is met, by a set of one clause of the user', async () => {
    const own = {
      heelwrightRules: 1,
      id: 'harbour-own',
      title: 'Harbour rule',
      source: 'a letter',
      edition: '2026',
      notes: [],
      appliesTo: {},
      freeSurface: 'upright',
      clauses: [
        {
          id: 'gm',
          clause: '1',
          words: 'GM of 0.3 m.',
          formula: 'GM >= 0.30 m',
          provenance: 'seen',
          anyOf: [
            {
              allOf: [
                {
                  quantity: { kind: 'gm-fluid' },
                  bound: 'at-least',
                  limit: { kind: 'fixed', value: 0.3, unit: 'm' },
                },
              ],
            },
          ],
        },
      ],
    };
    file('own.json', own);
    const path = file('b.json', { ...BOX, ownRuleSets: ['own.json'], ruleSets: ['harbour-own'] });
    const { said, exit, complained } = await run(path, '--only', 'light');
    expect(complained).toBe('');
    expect(exit).toBe(0);
    expect(said).toMatch(/GM of 0.3 m. met/);
  });

  it('refuses with a code and the place: unknown set, field, space, file, folder', async () => {
    const cases: [object | string, RegExp][] = [
      [{ ...BOX, ruleSets: ['no-such'] }, /rules-unknown/],
      [{ ...BOX, lightship: { ...BOX.lightship, mass: { value: -1 } } }, /input-shape.*lightship/],
      [{ ...BOX, hull: 'other.csv' }, /file-not-readable/],
      [{ ...BOX, hull: '../box.csv' }, /input-shape/],
      [{ ...BOX, lightship: { ...BOX.lightship, mass: { value: 99_000 } } }, /hull-sinks/],
    ];
    for (const [content, expected] of cases) {
      const { complained, exit } = await run(file('c.json', content));
      expect(complained).toMatch(expected);
      expect(exit).toBe(3);
      process.exitCode = undefined;
      vi.restoreAllMocks();
    }
  });

  it('limits, table, remedies and what-if stand beside when asked, in words and as JSON', async () => {
    const path = file('d.json', { ...BOX, conditions: [BOX.conditions![1]!] });
    const options = ['--limits', '170', '--table', '--remedies', '--add', '5,10,0,3.2'];
    const { said } = await run(path, ...options, '--json');
    const { limits } = loadingOutput.parse(JSON.parse(said));
    expect(limits!.limitingKg).toHaveLength(1);
    const [row] = limits!.wheelhouse!.rows;
    expect(row!.limitingKgM).toBeCloseTo(limits!.limitingKg![0]!.kgM!, 4);
    expect(row!.within).toBe(row!.upperKgM! <= row!.limitingKgM!);
    const [what] = limits!.whatIf!;
    expect(what!.after.displacementT - what!.before.displacementT).toBeCloseTo(5, 9);
    const words = await run(path, ...options);
    expect(words.said).toMatch(/LIMITING KG/);
    expect(words.said).toMatch(/WHEELHOUSE TABLE[\s\S]*Not judged: deck strength/);
    expect(words.said).toMatch(/WHAT IF: 5 t put aboard, in light/);
    expect(words.said).not.toMatch(/\bsafe\b|\bapproved\b/i);
  });

  it('refuses what is asked wrongly as wrong usage', async () => {
    const path = file('e.json', BOX);
    for (const wrong of [
      ['--limits', 'heavy'],
      ['--add', '1,2,3'],
      ['--move', '1,2,3,4'],
      ['--add', '1,2,0,3', '--remove', '1,2,0,3'],
      ['--add', '-1,2,0,3'],
    ]) {
      const { exit, complained } = await run(path, ...wrong);
      expect(exit, complained).toBe(2);
      process.exitCode = undefined;
      vi.restoreAllMocks();
    }
  });
});
