import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';

/** Writes a file whole or not at all, readable by its owner only, and lasting when it returns. */
export function writeOwnFile(file: string, text: string): void {
  const beside = `${file}.new`;
  rmSync(beside, { force: true });
  const descriptor = openSync(beside, 'wx', 0o600);
  try {
    writeFileSync(descriptor, text);
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
  renameSync(beside, file);
}
