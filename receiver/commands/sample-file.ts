import { closeSync, openSync, readSync } from 'node:fs';
import { TextDecoder } from 'node:util';
import { Fault } from '#core/fault/fault.ts';
import { type RowTaker, SampleRows } from '#core/sample/sample-rows.ts';

/** For the help of every command that reads samples. */
export const SAMPLE_FORMS = `Fields parted by comma, semicolon or tab; a decimal comma is understood beside the latter two and
in quotes; a header or none, a row of units (s, ms, deg, rad) under it, comments after # or %;
irregular times, gaps and empty fields are allowed. Heel positive starboard down.`;

const PIECE_BYTES = 256 * 1024;

/**
 * A CSV file of samples row by row, whatever its size; `-` is standard input. Throws the faults
 * of `SampleRows`, `file-not-readable`, and `table-encoding` for bytes that are not UTF-8.
 */
export function rowsFromFile(path: string, taker: RowTaker): void {
  const descriptor = opened(path);
  try {
    const rows = new SampleRows(taker);
    const decoder = new TextDecoder('utf-8', { fatal: true });
    const piece = Buffer.alloc(PIECE_BYTES);
    let at = 0;
    for (;;) {
      const size = readPiece(descriptor, piece, path);
      rows.push(decoded(decoder, piece.subarray(0, size), size > 0, path, at));
      at += size;
      if (size === 0) break;
    }
    rows.finish();
  } finally {
    closeSync(descriptor);
  }
}

function opened(path: string): number {
  if (path === '-') return 0;
  try {
    return openSync(path, 'r');
  } catch (error) {
    throw new Fault('file-not-readable', path, (error as Error).message);
  }
}

function readPiece(descriptor: number, piece: Buffer, path: string): number {
  for (;;) {
    try {
      return readSync(descriptor, piece, 0, piece.length, null);
    } catch (error) {
      const { code, message } = error as NodeJS.ErrnoException;
      if (code === 'EOF') return 0;
      // a pipe with nothing in it yet
      if (code === 'EAGAIN') Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
      else throw new Fault('file-not-readable', path, message);
    }
  }
}

function decoded(
  decoder: TextDecoder,
  bytes: Uint8Array,
  stream: boolean,
  path: string,
  at: number,
): string {
  try {
    return decoder.decode(bytes, { stream });
  } catch {
    throw new Fault('table-encoding', path, `not UTF-8 within bytes ${at} to ${at + bytes.length}`);
  }
}
