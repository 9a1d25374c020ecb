import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = new URL('..', import.meta.url).pathname;
const require = createRequire(import.meta.url);
const CORE_ORDER = require('../.core-order.json') as string[];

const MOST_LINES = 300;

/** Exactly what the top level may hold beside dotfiles and what is installed. */
const TOP_LEVEL = [
  'DEVELOPERS.md',
  'LICENSE',
  'README.md',
  'core',
  'device',
  'hardware',
  'package-lock.json',
  'package.json',
  'receiver',
  'tests',
  'tsconfig.json',
  'ui',
];

function tracked(...patterns: string[]): string[] {
  const out = execFileSync('git', ['ls-files', '--', ...patterns], { cwd: root, encoding: 'utf8' });
  return out.split('\n').filter((file) => file !== '' && existsSync(join(root, file)));
}

describe('the house', () => {
  it('has exactly the top level agreed', () => {
    const top = new Set(tracked('.').map((file) => file.split('/')[0]!));
    expect([...top].filter((entry) => !entry.startsWith('.')).sort()).toEqual(
      [...TOP_LEVEL].sort(),
    );
  });

  it('has no folder in core that the import order does not place', () => {
    const folders = readdirSync(join(root, 'core'), { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map((entry) => entry.name);
    expect(folders.filter((folder) => !CORE_ORDER.includes(folder))).toEqual([]);
  });

  it('keeps the import order in DEVELOPERS.md as the check has it', () => {
    expect(readFileSync(join(root, 'DEVELOPERS.md'), 'utf8')).toContain(CORE_ORDER.join(' · '));
  });

  it('keeps files to one idea: none over 300 lines but the ones listed', () => {
    const long = tracked('core/*.ts', 'device/*.ts', 'receiver/*.ts', 'ui/*.ts', 'ui/*.svelte')
      .map((file) => ({
        file,
        lines: readFileSync(join(root, file), 'utf8').split('\n').length - 1,
      }))
      .filter(({ lines }) => lines > MOST_LINES);
    expect(long).toEqual([]);
  });

  it('has a test of the same path for every file of core that computes', () => {
    const typesOnly = (file: string) =>
      !/\b(function|class|=>)\b|=>/.test(readFileSync(join(root, file), 'utf8'));
    const untested = tracked('core/*.ts').filter(
      (file) =>
        !typesOnly(file) && !existsSync(join(root, 'tests', file.replace(/\.ts$/, '.test.ts'))),
    );
    expect(untested).toEqual([]);
  });

  it('asks no clock and no chance in core, nor leaves unfinished business anywhere', () => {
    const offenders: string[] = [];
    for (const file of tracked(
      'core/*.ts',
      'device/*.ts',
      'receiver/*.ts',
      'ui/*.ts',
      'ui/*.svelte',
    )) {
      const text = readFileSync(join(root, file), 'utf8');
      if (
        file.startsWith('core/') &&
        /Date\.now|new Date\(\)|performance\.now|Math\.random/.test(text)
      )
        offenders.push(`${file}: clock or chance`);
      if (/\b(TODO|FIXME|XXX|HACK)\b|@ts-ignore|@ts-nocheck|\bas any\b/.test(text))
        offenders.push(`${file}: unfinished`);
      if (/\{@html/.test(text)) offenders.push(`${file}: {@html}`);
    }
    expect(offenders).toEqual([]);
  });

  it('leaves no test out silently', () => {
    const skipping = tracked('tests/*.ts').filter(
      (file) =>
        file !== 'tests/tidy.test.ts' &&
        /\b(it|test|describe)\.(skip|only|todo)\b/.test(readFileSync(join(root, file), 'utf8')),
    );
    expect(skipping).toEqual([]);
  });

  it('starts from programs that a Node of any age can parse, to be told that it is too old', () => {
    for (const name of ['start', 'heelwright', 'machine', 'port', 'build']) {
      const text = readFileSync(join(root, '.run', `${name}.cjs`), 'utf8').replace(
        /^\s*(\/\/|\/?\*).*$/gm,
        '',
      );
      expect(text, name).not.toMatch(/=>|`|^\s*(const|let|class|async) |\?\.|\?\?/m);
    }
  });

  it('names no shell syntax in package.json, so that the scripts run on every system', () => {
    const scripts = (
      JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
        scripts: Record<string, string>;
      }
    ).scripts;
    for (const command of Object.values(scripts))
      expect(command).toMatch(/^node \.run\/[a-z]+\.cjs$/);
  });
});
