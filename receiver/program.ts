import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

export const PROGRAM_NAME = 'heelwright';
/** The address of the screen when none is asked for. */
export const DEFAULT_PORT = 4780;

/** Folder of the built programs: this one's own, unless tests name it. */
function programsFolder(): string {
  return process.env['HEELWRIGHT_PROGRAMS'] ?? dirname(fileURLToPath(import.meta.url));
}

/** A built program of ours: another child or worker. */
export function programFile(
  name:
    | 'receiver'
    | 'device'
    | 'steadiness-worker'
    | 'roll-worker'
    | 'reduction-worker'
    | 'document-worker',
): URL {
  return pathToFileURL(join(programsFolder(), `${name}.mjs`));
}

/** The built screen, beside the programs. */
export function screenFolder(): string {
  return join(programsFolder(), '..', 'screen');
}

/** The version in package.json, two folders over the programs. */
export function programVersion(): string {
  const file = join(programsFolder(), '..', '..', 'package.json');
  const { version } = JSON.parse(readFileSync(file, 'utf8')) as { version: string };
  return version;
}
