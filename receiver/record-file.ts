import type { FileHandle } from 'node:fs/promises';
import { Fault } from '#core/fault/fault.ts';
import { type ChainHead, chainAfter } from '#core/record/chain.ts';
import {
  type Line,
  type LineBody,
  type LineKind,
  RECORD_FORMAT,
  type Role,
} from '#core/record/line.ts';
import type { LineRead } from '#core/record/read-line.ts';
import { lineBytes } from '#core/record/write-line.ts';
import type { Clock } from '#core/time/clock.ts';
import { nodeSha256Hex } from './node-digest.ts';
import type { RecordLock } from './record-lock.ts';
import {
  messageOf,
  type OpenedRecord,
  openedForWriting,
  openedRecord,
  type RecordDisk,
} from './record-opening.ts';

/** What came in this long is written together, synced once and only then acknowledged. */
export const COMMIT_EVERY_MS = 250;
/**
 * Lines not yet on disk over this: the board sides are asked to wait. Eight of them send at most
 * 4 MB each before they wait for an acknowledgement by themselves, so only one that keeps no
 * measure comes here; the others stay on the line and their clocks stay paired.
 */
const PAUSE_OVER_BYTES = 40 * 1024 * 1024;
/** Written at once; what has gathered over a full disk goes in such pieces, so that nothing stands still. */
const MOST_GROUP_BYTES = 1024 * 1024;
/** Over this nothing more is taken at all. */
const MOST_PENDING_BYTES = 64 * 1024 * 1024;

export interface WhoWrites {
  readonly author: string;
  readonly role: Role;
}

/** A line on its way to the disk, and where the chain stands after it. */
interface Pending {
  readonly bytes: Uint8Array;
  readonly head: string;
  readonly wall: string;
}

/** Hears each line in order: those of an opened file, then each appended. A fault refuses the line. */
export type LineFollower = (read: LineRead, bytes: number) => void;

export interface RecordFileSettings {
  readonly path: string;
  readonly program: string;
  readonly follow: LineFollower;
  /** The clock to write with, made once it is known where the record stands (null: it is new). */
  readonly clock: (last: Line | null) => Clock;
  readonly disk?: (handle: FileHandle) => RecordDisk;
}

/**
 * The one writer of a record. Lines are appended to memory at once and reach the disk in groups;
 * `onCommitted` tells up to which line it is there. A full disk loses nothing: the group is tried
 * again at the same place until it fits, and nothing is acknowledged meanwhile.
 */
export class RecordFile {
  readonly id: string;
  readonly path: string;
  readonly clock: Clock;
  onCommitted: (lines: number) => void = () => {};
  /** Told when writing begins to fail (the fault) and when it goes on (null). */
  onDisk: (fault: Fault | null) => void = () => {};
  readonly #disk: RecordDisk;
  readonly #lock: RecordLock;
  readonly #follow: LineFollower;
  #chain: ChainHead;
  #committed: { lines: number; bytes: number; head: string; wall: string };
  #pending: Pending[] = [];
  #pendingBytes = 0;
  #commit: Promise<boolean> | null = null;
  #fault: Fault | null = null;
  #savers: { readonly lines: number; readonly resolve: () => void }[] = [];
  #timer: NodeJS.Timeout;

  private constructor(opened: OpenedRecord, settings: RecordFileSettings) {
    this.id = opened.id;
    this.path = settings.path;
    this.clock = settings.clock(opened.last);
    this.#disk = opened.disk;
    this.#lock = opened.lock;
    this.#follow = settings.follow;
    this.#chain = opened.chain;
    this.#committed = {
      lines: opened.chain.next,
      bytes: opened.bytes,
      head: opened.chain.head,
      wall: opened.last?.wall ?? wallText(this.clock),
    };
    this.#timer = setInterval(() => void this.commit(), COMMIT_EVERY_MS);
  }

  /** Opens the record, or begins one where there is no file; cuts a torn end and says so. */
  static async open(settings: RecordFileSettings): Promise<RecordFile> {
    const handle = await openedForWriting(settings.path);
    try {
      const opened = await openedRecord(handle, settings);
      const file = new RecordFile(opened, settings);
      const receiver: WhoWrites = { author: 'receiver', role: 'receiver' };
      if (opened.chain.next === 0)
        file.append(
          'record-opened',
          { record: opened.id, format: RECORD_FORMAT, program: settings.program },
          receiver,
        );
      if (opened.repaired !== null) file.append('record-repaired', opened.repaired, receiver);
      await file.commit();
      return file;
    } catch (error) {
      await handle.close().catch(() => {});
      throw error;
    }
  }

  /** Lines on disk, the digest of the last, and its time: what a screen shows as saved. */
  get saved(): { lines: number; bytes: number; head: string; wall: string } {
    return this.#committed;
  }

  get fault(): Fault | null {
    return this.#fault;
  }

  /** Should whoever sends wait until more is on disk? */
  get full(): boolean {
    return this.#pendingBytes > PAUSE_OVER_BYTES;
  }

  /** Appends a line of ours; returns it. Throws what a follower refuses, or `record-disk` when too much waits. */
  append<K extends LineKind>(kind: K, body: LineBody<K>, who: WhoWrites): Line {
    return this.appendText(kind, body, JSON.stringify(body), who);
  }

  /** Appends a body whose exact text is given, as of a stream item. `body` is that text, parsed and checked. */
  appendText<K extends LineKind>(
    kind: K,
    body: LineBody<K>,
    bodyText: string,
    who: WhoWrites,
  ): Line {
    if (this.#pendingBytes > MOST_PENDING_BYTES)
      throw new Fault('record-disk', this.path, `${this.#pendingBytes} bytes wait for the disk`);
    const wall = wallText(this.clock);
    const receiverS = this.clock.monotonicS();
    const bytes = lineBytes(this.#chain, { kind, wall, receiverS, ...who, bodyText });
    const { next: n, head: prev } = this.#chain;
    // Kind and body come as a pair, which TypeScript cannot follow through the union.
    const line = { n, kind, v: 1, prev, wall, receiverS, ...who, body } as unknown as Line;
    this.#follow({ line, bodyText }, bytes.length);
    this.#chain = chainAfter(this.#chain, bytes, nodeSha256Hex);
    this.#pending.push({ bytes, head: this.#chain.head, wall });
    this.#pendingBytes += bytes.length;
    return line;
  }

  /** Brings everything appended so far to the disk; resolves also when the disk refused. */
  async commit(): Promise<void> {
    const lines = this.#chain.next;
    while (this.#committed.lines < lines) {
      this.#commit ??= this.#write();
      if (!(await this.#commit)) return;
    }
  }

  /** Resolves when every line appended by now is on disk, however long the disk refuses. */
  async whenSaved(): Promise<void> {
    const lines = this.#chain.next;
    if (this.#committed.lines >= lines) return;
    await new Promise<void>((resolve) => this.#savers.push({ lines, resolve }));
  }

  async close(): Promise<void> {
    clearInterval(this.#timer);
    await this.commit();
    await this.#disk.close();
    await this.#lock.release();
  }

  /** Writes the oldest lines that wait; answers whether the disk took them. */
  async #write(): Promise<boolean> {
    // More is appended while this group is on its way; only what is in it leaves the queue after.
    const group = oldestGroup(this.#pending);
    const last = group.at(-1)!;
    const bytes = Buffer.concat(group.map((line) => line.bytes));
    try {
      await this.#disk.write(bytes, this.#committed.bytes);
      await this.#disk.sync();
    } catch (error) {
      this.#commit = null;
      this.#setFault(new Fault('record-disk', this.path, messageOf(error)));
      return false;
    }
    this.#pending = this.#pending.slice(group.length);
    this.#pendingBytes -= bytes.length;
    const { lines: before, bytes: bytesBefore } = this.#committed;
    const lines = before + group.length;
    const { head, wall } = last;
    this.#committed = { lines, head, wall, bytes: bytesBefore + bytes.length };
    this.#commit = null;
    this.#setFault(null);
    this.onCommitted(lines);
    const due = this.#savers.filter((saver) => saver.lines <= lines);
    this.#savers = this.#savers.filter((saver) => saver.lines > lines);
    for (const saver of due) saver.resolve();
    return true;
  }

  #setFault(fault: Fault | null): void {
    if ((fault === null) === (this.#fault === null)) return;
    this.#fault = fault;
    this.onDisk(fault);
  }
}

/** At least one line, and no more than is written at once. */
function oldestGroup(pending: readonly Pending[]): readonly Pending[] {
  let bytes = 0;
  const end = pending.findIndex((line, k) => {
    bytes += line.bytes.length;
    return k > 0 && bytes > MOST_GROUP_BYTES;
  });
  // A copy: lines are added to the queue while the group is on its way.
  return pending.slice(0, end < 0 ? pending.length : end);
}

function wallText(clock: Clock): string {
  return new Date(clock.wallMs()).toISOString();
}
