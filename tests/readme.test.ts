import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import {
  blockBody,
  OPENED_BODY,
  RecordLines,
  readingBody,
  TEST_BODY,
} from '#tests/support/record-lines.ts';

const folder = mkdtempSync(join(tmpdir(), 'readme-'));
afterAll(() => rmSync(folder, { recursive: true }));
const page = readFileSync(new URL('../README.md', import.meta.url), 'utf8');

/** The script as it stands in the README, in a file of its own. */
function scriptOf(language: string, name: string): string {
  const [, code] = new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``).exec(page) ?? [];
  if (code === undefined) throw new Error(`README has no ${language} script`);
  const file = join(folder, name);
  writeFileSync(file, code);
  return file;
}

function aRecord(): Buffer[] {
  const record = new RecordLines();
  record.add('test-opened', TEST_BODY);
  record.add('stream-opened', OPENED_BODY);
  for (let number = 1; number <= 6; number++) record.add('samples', blockBody(number, number * 10));
  record.add('reading', readingBody(0));
  record.add('remark', { text: 'Grüße vom Kai: 0.5° ± 0.01°', line: null });
  record.add('test-closed', { reason: 'done' });
  return record.lines.map((line) => Buffer.from(line));
}

/** Every way one line can be wrong that the chain alone can tell. */
function damages(lines: readonly Buffer[]): { what: string; lines: Buffer[] }[] {
  return lines.slice(0, -1).flatMap((line, n) => {
    const flipped = Buffer.from(line);
    const at = Math.floor(line.length * 0.7);
    flipped[at] = flipped[at]! ^ 0x01;
    const without = lines.toSpliced(n, 1);
    const twice = lines.toSpliced(n, 0, line);
    const swapped = lines.toSpliced(n, 2, lines[n + 1]!, line);
    return [
      { what: `a bit of line ${n}`, lines: lines.with(n, flipped) },
      { what: `line ${n} removed`, lines: without },
      { what: `line ${n} twice`, lines: twice },
      { what: `lines ${n} and ${n + 1} swapped`, lines: swapped },
    ];
  });
}

function run(program: string, script: string, lines: readonly Buffer[]) {
  const file = join(folder, 'record.hwr');
  writeFileSync(file, Buffer.concat(lines));
  return spawnSync(program, [script, file], { encoding: 'utf8' });
}

describe.each([
  ['js', process.execPath, 'check.cjs'],
  ['python', 'python3', 'check.py'],
])('the README script in %s', (language, program, name) => {
  it('finds a record whole, and every line that is not', (ctx) => {
    if (spawnSync(program, ['--version']).status !== 0) ctx.skip(`${program} is not installed`);
    const script = scriptOf(language, name);
    const lines = aRecord();
    const good = run(program, script, lines);
    expect(good.status).toBe(0);
    expect(good.stdout).toContain(createHash('sha256').update(lines.at(-1)!).digest('hex'));
    for (const damage of damages(lines))
      expect(run(program, script, damage.lines).status, damage.what).not.toBe(0);
    const torn = lines.with(-1, lines.at(-1)!.subarray(0, -3));
    expect(run(program, script, torn).status, 'a torn last line').not.toBe(0);
  }, 120_000);
});
