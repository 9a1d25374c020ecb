import { open, readdir, readFile, rename, rm, stat, truncate } from 'node:fs/promises';
import path from 'node:path';
import { readSpoolLines } from './spool-line.ts';

/**
 * One stream's items lie in files of at most some hundred kilobytes, named
 * `<board>_<counter>_<number of the first item>.spool`, so that what is acknowledged can be
 * deleted while the stream goes on.
 */
export interface Segment {
  readonly path: string;
  readonly firstNumber: number;
  lastNumber: number;
  bytes: number;
}

export interface FoundStream {
  readonly stream: string;
  readonly segments: Segment[];
  readonly closed: boolean;
}

export interface Damage {
  readonly file: string;
  /** Bytes cut off or set aside, because they are not as they were written. */
  readonly bytes: number;
}

export function segmentPath(folder: string, stream: string, firstNumber: number): string {
  const [, board, counter] = stream.split('/');
  return path.join(folder, `${board}_${counter}_${firstNumber}.spool`);
}

/** Beside a stream's files: the name of the record it goes into. */
export function claimPath(folder: string, stream: string): string {
  const [, board, counter] = stream.split('/');
  return path.join(folder, `${board}_${counter}.claim`);
}

export async function readClaim(file: string): Promise<string | null> {
  try {
    return await readFile(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

/**
 * Reads every spool file as a crash may have left it. A torn end is cut off; what comes after
 * damage in the middle cannot be sent without a hole and is set aside as `.damaged`.
 */
export async function findStreams(
  folder: string,
  station: string,
): Promise<{ streams: FoundStream[]; damage: Damage[] }> {
  const files = new Map<string, { firstNumber: number; path: string }[]>();
  for (const name of await readdir(folder)) {
    const match = /^([0-9A-Za-z-]{1,40})_(\d{1,9})_(\d{1,15})\.spool$/.exec(name);
    if (match === null) continue;
    const stream = `${station}/${match[1]}/${match[2]}`;
    const ofStream = files.get(stream) ?? [];
    ofStream.push({ firstNumber: Number(match[3]), path: path.join(folder, name) });
    files.set(stream, ofStream);
  }
  const streams: FoundStream[] = [];
  const damage: Damage[] = [];
  for (const [stream, ofStream] of files) {
    ofStream.sort((a, b) => a.firstNumber - b.firstNumber);
    const found = await readStream(stream, ofStream, damage);
    if (found.segments.length > 0) streams.push(found);
  }
  streams.sort((a, b) => counterOf(a.stream) - counterOf(b.stream));
  return { streams, damage };
}

async function readStream(
  stream: string,
  files: readonly { firstNumber: number; path: string }[],
  damage: Damage[],
): Promise<FoundStream> {
  const segments: Segment[] = [];
  let next = files[0]?.firstNumber ?? 0;
  let closed = false;
  let whole = true;
  for (const { firstNumber, path: file } of files) {
    if (!whole || firstNumber !== next) {
      whole = false;
      damage.push({ file: path.basename(file), bytes: (await stat(file)).size });
      await rename(file, `${file}.damaged`);
      continue;
    }
    const bytes = await readFile(file);
    const { items, soundBytes } = readSpoolLines(bytes, { stream, firstNumber });
    if (soundBytes < bytes.length) {
      whole = false;
      damage.push({ file: path.basename(file), bytes: bytes.length - soundBytes });
      await cut(file, soundBytes);
    }
    next = firstNumber + items.length;
    closed = items.at(-1)?.closes ?? closed;
    if (items.length > 0) {
      segments.push({ path: file, firstNumber, lastNumber: next - 1, bytes: soundBytes });
    }
  }
  return { stream, segments, closed };
}

async function cut(file: string, length: number): Promise<void> {
  if (length === 0) {
    await rm(file);
    return;
  }
  await truncate(file, length);
}

/** Appends at the known length, so that what an earlier failure left behind is overwritten. */
export async function writeSynced(segment: Segment, bytes: Buffer): Promise<void> {
  const handle = await open(segment.path, segment.bytes === 0 ? 'w' : 'r+', 0o600);
  try {
    await handle.truncate(segment.bytes);
    let written = 0;
    while (written < bytes.length) {
      const { bytesWritten } = await handle.write(
        bytes,
        written,
        bytes.length - written,
        segment.bytes + written,
      );
      written += bytesWritten;
    }
    await handle.datasync();
  } finally {
    await handle.close();
  }
}

function counterOf(stream: string): number {
  return Number(stream.slice(stream.lastIndexOf('/') + 1));
}
