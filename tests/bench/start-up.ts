import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { freePort } from '#tests/support/programs.ts';

export interface StartUp {
  /** A clone without packages to the address printed: npm ci, screen, programs, children. */
  readonly firstS: number;
  /** The same again, nothing changed. */
  readonly againS: number;
}

/** In a fresh clone of the committed state; needs the network for npm ci, null where it fails. */
export async function measureStartUp(): Promise<StartUp | null> {
  const folder = mkdtempSync(join(tmpdir(), 'bench-clone-'));
  try {
    const clone = spawnSync('git', ['clone', '--quiet', process.cwd(), join(folder, 'clone')]);
    if (clone.status !== 0) return null;
    const firstS = await secondsToAddress(join(folder, 'clone'), folder);
    if (firstS === null) return null;
    const againS = await secondsToAddress(join(folder, 'clone'), folder);
    return againS === null ? null : { firstS, againS };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function secondsToAddress(clone: string, data: string): Promise<number | null> {
  const port = await freePort();
  const begunMs = performance.now();
  const child = spawn(
    process.execPath,
    ['.run/start.cjs', '--port', `${port}`, '--data', join(data, 'data')],
    {
      cwd: clone,
      stdio: ['ignore', 'pipe', 'inherit'],
    },
  );
  const seconds = await new Promise<number | null>((resolve) => {
    child.stdout.on('data', (bytes: Buffer) => {
      if (String(bytes).includes('http://127')) resolve((performance.now() - begunMs) / 1000);
    });
    child.on('exit', () => resolve(null));
  });
  const gone = new Promise((resolve) => child.once('exit', resolve));
  child.kill('SIGTERM');
  if (seconds !== null) await gone;
  return seconds;
}
