import { closeSync, openSync, readSync } from 'node:fs';
import { Fault } from '#core/fault/fault.ts';

const CHUNK_BYTES = 1024 * 1024;

/** A file's bytes in pieces that are written over with the next. Throws `file-not-readable`. */
export function readWhole(path: string, take: (bytes: Uint8Array) => void): void {
  let descriptor: number;
  try {
    descriptor = openSync(path, 'r');
  } catch (error) {
    throw new Fault('file-not-readable', path, (error as Error).message);
  }
  const chunk = Buffer.alloc(CHUNK_BYTES);
  try {
    for (;;) {
      const got = readSync(descriptor, chunk, 0, CHUNK_BYTES, null);
      if (got === 0) return;
      take(chunk.subarray(0, got));
    }
  } finally {
    closeSync(descriptor);
  }
}
