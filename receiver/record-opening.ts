import { randomUUID } from 'node:crypto';
import { rmSync, writeFileSync } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { dirname } from 'node:path';
import { Fault } from '#core/fault/fault.ts';
import type { ChainHead } from '#core/record/chain.ts';
import type { Line } from '#core/record/line.ts';
import type { LineRead } from '#core/record/read-line.ts';
import { lockRecord, type RecordLock } from './record-lock.ts';
import { isTornEnd, scanRecord } from './record-scan.ts';

/** Of a torn end at most this much is kept beside the record. */
const MOST_CUT_BYTES = 64 * 1024 * 1024;

/** The two things asked of the disk, so that a test can be a full one. */
export interface RecordDisk {
  write(bytes: Uint8Array, at: number): Promise<void>;
  sync(): Promise<void>;
  close(): Promise<void>;
}

export interface OpeningSettings {
  readonly path: string;
  /** Hears each line that holds, in order. */
  readonly follow: (read: LineRead, bytes: number) => void;
  readonly disk?: (handle: FileHandle) => RecordDisk;
}

/** A record as it stands in its file: locked, its lines proven, its torn end cut. */
export interface OpenedRecord {
  readonly id: string;
  readonly disk: RecordDisk;
  readonly lock: RecordLock;
  readonly chain: ChainHead;
  readonly bytes: number;
  readonly last: Line | null;
  readonly repaired: { cutBytes: number; why: string } | null;
}

/** Where the record in this file stands, with its lock taken. */
export async function openedRecord(
  handle: FileHandle,
  settings: OpeningSettings,
): Promise<OpenedRecord> {
  const disk = (settings.disk ?? diskOf)(handle);
  const id = firstLineId(handle) ?? randomUUID();
  const lock = await lockRecord(id);
  try {
    let last: Line | null = null;
    const scan = scanRecord(handle.fd, (read, bytes) => {
      settings.follow(read, bytes.length);
      last = read.line;
    });
    if (scan.fault === null)
      return { id, disk, lock, chain: scan.chain, bytes: scan.goodBytes, last, repaired: null };
    if (scan.fault.code !== 'record-line' || !isTornEnd(handle.fd, scan.goodBytes))
      throw scan.fault;
    const kept = await cutEnd(handle, settings.path, scan);
    const found = scan.fault.report.found.slice(0, 300);
    const repaired = {
      cutBytes: scan.totalBytes - scan.goodBytes,
      why: `the last write was cut short: ${found}${kept ? '' : '; no room to keep what was cut'}`,
    };
    return {
      id,
      disk,
      lock,
      chain: scan.chain,
      bytes: scan.goodBytes,
      last,
      repaired: scan.chain.next === 0 ? null : repaired,
    };
  } catch (error) {
    await lock.release();
    throw error;
  }
}

/** The id in the first line, or null where no whole first line stands. */
function firstLineId(handle: FileHandle): string | null {
  let id: string | null = null;
  scanRecord(handle.fd, ({ line }) => {
    if (line.kind === 'record-opened') id = line.body.record;
    // One line is enough; the scan ends at a fault and reports it to nobody.
    throw new Fault('record-line', 'line 0', 'read for its id');
  });
  return id;
}

/**
 * What is cut was never acknowledged; it is kept beside the record all the same, where there is
 * room. On a full disk the cut itself makes some, so it is tried again after; answers whether kept.
 */
async function cutEnd(
  handle: FileHandle,
  path: string,
  scan: { goodBytes: number; totalBytes: number },
): Promise<boolean> {
  const cut = Buffer.alloc(Math.min(scan.totalBytes - scan.goodBytes, MOST_CUT_BYTES));
  await handle.read(cut, 0, cut.length, scan.goodBytes);
  const beside = `${path}.cut-at-${scan.goodBytes}`;
  const keptBefore = keep(beside, cut);
  await handle.truncate(scan.goodBytes);
  await handle.sync();
  return keptBefore || keep(beside, cut);
}

function keep(path: string, bytes: Uint8Array): boolean {
  try {
    writeFileSync(path, bytes, { mode: 0o600 });
    return true;
  } catch {
    rmSync(path, { force: true });
    return false;
  }
}

export async function openedForWriting(path: string): Promise<FileHandle> {
  try {
    return await open(path, 'r+');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT')
      throw new Fault('file-not-readable', path, messageOf(error));
  }
  const handle = await open(path, 'wx+', 0o600);
  await syncFolder(dirname(path));
  return handle;
}

/** A new file's name is on disk only when its folder is; Windows sees to that by itself. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  await handle.sync();
  await handle.close();
}

function diskOf(handle: FileHandle): RecordDisk {
  return {
    async write(bytes, at) {
      let done = 0;
      while (done < bytes.length) {
        const { bytesWritten } = await handle.write(bytes, done, bytes.length - done, at + done);
        done += bytesWritten;
      }
    },
    sync: () => handle.datasync(),
    close: () => handle.close(),
  };
}

export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
