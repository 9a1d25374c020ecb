import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { everyKindRecord } from '#tests/support/every-kind-record.ts';
import { randomFromSeed } from '#tests/support/seeded.ts';

const README = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'readme-'));
afterAll(() => rmSync(folder, { recursive: true }));

const record = everyKindRecord(8);
const { lines } = record;
const MOST_LINES_OF_SCRIPT = 16;

/** The script of this language in the README's section on the record. */
function scriptOf(language: string): string {
  const section = README.slice(README.indexOf('## The record'));
  const script = new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``).exec(section)?.[1];
  if (script === undefined) throw new Error(`no ${language} script in the README`);
  return script;
}

interface Checker {
  readonly program: string;
  readonly script: string;
}

/** What the script says: the digest of the last line when all hold, else the line that does not. */
function said(checker: Checker, bytes: Uint8Array): { line: number | null; head: string | null } {
  const path = join(folder, 'day.hwr');
  writeFileSync(path, bytes);
  const ran = spawnSync(checker.program, [checker.script, path], { encoding: 'utf8' });
  const text = ran.stdout + ran.stderr;
  const bad = /line (\d+) does not hold/.exec(text.replace(/^.*throw `.*$/m, ''));
  if (bad !== null && ran.status !== 0) return { line: Number(bad[1]), head: null };
  const good = /^\d+ lines hold, the last is ([0-9a-f]{64})\n$/.exec(text);
  if (good === null || ran.status !== 0) throw new Error(`it said: ${text}`);
  return { line: null, head: good[1]! };
}

function checkerOf(program: string, language: string, name: string): Checker {
  const script = join(folder, name);
  writeFileSync(script, scriptOf(language));
  return { program, script };
}

function checks(checker: Checker): void {
  const head = createHash('sha256').update(lines.at(-1)!).digest('hex');
  expect(said(checker, record.bytes)).toEqual({ line: null, head });
  const random = randomFromSeed(3);
  for (const k of [0, 1, 7, 20, lines.length - 2]) {
    const flipped = Uint8Array.from(lines[k]!);
    flipped[Math.floor(random() * flipped.length)]! ^= 1 << Math.floor(random() * 8);
    const found = said(checker, Buffer.concat(lines.with(k, flipped))).line;
    expect([k, k + 1], `bit of line ${k}`).toContain(found);
    expect(said(checker, Buffer.concat(lines.toSpliced(k, 1))).line).toBe(k);
    expect(said(checker, Buffer.concat(lines.toSpliced(k, 0, lines[k]!))).line).toBe(k + 1);
    const swapped = lines.with(k, lines[k + 1]!).with(k + 1, lines[k]!);
    expect(said(checker, Buffer.concat(swapped)).line).toBe(k);
    const before = Buffer.concat(lines.slice(0, k));
    const torn = Buffer.concat([before, lines[k]!.subarray(0, 40)]);
    expect(said(checker, torn).line).toBe(k);
  }
  // The last line's own bytes, and lines taken off the end, show in the digest that is printed.
  const last = Buffer.from(lines.at(-1)!);
  last[last.indexOf('done')] = 'g'.charCodeAt(0);
  for (const damaged of [lines.with(-1, last), lines.slice(0, -1)]) {
    const seen = said(checker, Buffer.concat(damaged));
    expect(seen.line).toBeNull();
    expect(seen.head).not.toBe(head);
  }
}

describe("the README's scripts, without our code", () => {
  it('are about ten lines', () => {
    for (const language of ['js', 'python'])
      expect(scriptOf(language).trimEnd().split('\n').length).toBeLessThan(MOST_LINES_OF_SCRIPT);
  });

  it('in Node, find a bit, a line gone, doubled, swapped, cut', () => {
    checks(checkerOf(process.execPath, 'js', 'check.cjs'));
  }, 60_000);

  it('in Python, find the same', (context) => {
    const has = spawnSync('python3', ['--version']).status === 0;
    context.skip(!has, 'there is no python3 on this machine');
    checks(checkerOf('python3', 'python', 'check.py'));
  }, 60_000);
});
