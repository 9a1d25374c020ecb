import { randomBytes } from 'node:crypto';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { Fault } from '#core/fault/fault.ts';

/** Where a station keeps its identity, its streams and what it was told of its boards. */
export function defaultDataFolder(): string {
  return path.join(os.homedir(), '.heelwright', 'station');
}

/** Makes the folder, for its owner only. Throws `station-folder`. */
export async function makeDataFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 });
  } catch (error) {
    throw new Fault('station-folder', folder, (error as Error).message);
  }
}

/** Replaces a file whole or not at all, for its owner only, and lasting when it resolves. */
export async function writeWhole(file: string, content: string | Uint8Array): Promise<void> {
  const beside = `${file}.${randomBytes(4).toString('hex')}.new`;
  try {
    const handle = await open(beside, 'w', 0o600);
    try {
      await handle.writeFile(content);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(beside, file);
    await syncFolder(path.dirname(file));
  } catch (error) {
    // On a full disk what was half written would take the room that is waited for.
    await rm(beside, { force: true }).catch(() => undefined);
    throw new Fault('station-folder', file, (error as Error).message);
  }
}

/** Makes the names in a folder as lasting as the files; Windows has no such call and needs none. */
export async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
