import { spawnSync } from 'node:child_process';
import { join } from 'node:path';

/** Runs one test file with more rounds than at a commit; the trial's laws are the test's own. */
export function vitestRun(
  file: string,
  environment: Readonly<Record<string, string>>,
  withinMs: number,
): { ok: boolean; text: string } {
  const result = spawnSync(
    process.execPath,
    [
      join('node_modules', 'vitest', 'vitest.mjs'),
      'run',
      '--config',
      join('tests', 'vitest.config.ts'),
      file,
    ],
    {
      encoding: 'utf8',
      timeout: withinMs,
      env: { ...process.env, NO_COLOR: '1', ...environment },
      maxBuffer: 64 * 1024 * 1024,
    },
  );
  return { ok: result.status === 0, text: result.stdout + result.stderr };
}
