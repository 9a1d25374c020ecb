import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterAll, afterEach, expect, it, vi } from 'vitest';
import { tablesOutput } from '#core/hull/tables-output.ts';
import { registerHydrostatics } from '#receiver/commands/hydrostatics.ts';
import { BOX_KN_CSV, BOX_TABLE_CSV } from '#tests/support/box-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'tables-'));
afterAll(() => rmSync(folder, { recursive: true }));
afterEach(() => {
  vi.restoreAllMocks();
  process.exitCode = undefined;
});
const file = (name: string, text: string) => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};
const box = file('box.csv', BOX_TABLE_CSV);
const kn = file('kn.csv', BOX_KN_CSV);

async function run(words: string) {
  const said: string[] = [];
  vi.spyOn(console, 'log').mockImplementation((text: string) => void said.push(text));
  vi.spyOn(console, 'error').mockImplementation((text: string) => void said.push(text));
  const program = new Command('heelwright').exitOverride();
  registerHydrostatics(program);
  await program.parseAsync(['hydrostatics', ...words.split(' ')], { from: 'user' });
  return { said: said.join('\n'), exit: Number(process.exitCode ?? 0) };
}

const TABLES = `${box} --tables --length 20 --tables-density 1025`;

it('answers from tables in words and as JSON, with levers where there is KN', async () => {
  const words = await run(`${TABLES} --kn ${kn} --draught 1.5 --kg 2 --heels 0,5,10`);
  expect(words.exit).toBe(0);
  expect(words.said).toMatch(/displacement in water of 1025\.0 kg\/m3 +184\.500 t/);
  expect(words.said).toMatch(/centre of flotation +not in the tables/);
  const json = await run(`${TABLES} --draught-aft 1.55 --draught-forward 1.45 --json`);
  const answer = tablesOutput.parse(JSON.parse(json.said));
  expect([answer.trimM, answer.levers]).toEqual([expect.closeTo(0.1, 9), null]);
});

it('refuses what lies beyond the tables, and a bad cell with its row and column', async () => {
  const deep = await run(`${TABLES} --draught 1.9`);
  expect([deep.exit, deep.said]).toEqual([3, expect.stringContaining('1.2 to 1.8 m')]);
  const bad = file('bad.csv', BOX_TABLE_CSV.replace('\n1.4,', '\n1.4x,'));
  const { exit, said } = await run(
    `${bad} --tables --length 20 --tables-density 1025 --draught 1.5`,
  );
  expect(exit).toBe(3);
  expect(said).toMatch(/row 4, column draughtM/);
});

it.each([
  [`${box} --tables --draught 1.5`, '--length'],
  [`${box} --tables --length 20 --draught 1.5`, '--tables-density'],
  [`${TABLES} --draught 1.5 --heel 3`, 'no --heel'],
  [`${TABLES} --draught 1.5 --points`, 'without --points'],
  [`${box} --kn ${kn} --draught 1.5`, '--kn goes with --tables'],
])('is used wrongly as %s', async (words, says) => {
  const { exit, said } = await run(words);
  expect([exit, said]).toEqual([2, expect.stringContaining(says)]);
});
