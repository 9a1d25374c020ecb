import { readFile, rm } from 'node:fs/promises';
import { Fault } from '#core/fault/fault.ts';
import { makeDataFolder, syncFolder, writeWhole } from './data-folder.ts';
import {
  claimPath,
  type Damage,
  findStreams,
  readClaim,
  type Segment,
  segmentPath,
  writeSynced,
} from './spool-files.ts';
import { groupByStream, readSpoolLines, spoolLine, type WaitingLine } from './spool-line.ts';
import type { ItemSink, StoredItem } from './stream-writer.ts';

const MOST_SEGMENT_BYTES = 256 * 1024;
/** A spool is of at least so many files of a stream, so that what is acknowledged can go. */
const SEGMENTS_IN_SPOOL = 16;
/** Where room is wanted a file ends once it is this long; shorter ones would cost more than they free. */
const LEAST_SEGMENT_BYTES = 16 * 1024;
/** Kept back for openings, faults and closings when samples find no more room. */
const URGENT_BYTES = 256 * 1024;
/** Items waiting for the disk, in memory. */
const MOST_WAITING_BYTES = 8 * 1024 * 1024;

interface Stream {
  readonly stream: string;
  readonly segments: Segment[];
  /** Everything up to here is on disk; -1: nothing yet. */
  storedNumber: number;
  acknowledgedNumber: number;
  closed: boolean;
  /** The record it goes into, once known. */
  claimedBy: string | null;
  /** Items of the last segment, so that what was just stored is sent without reading the disk. */
  recent: StoredItem[];
  /** The next item begins a new file. */
  fileEnds: boolean;
}

export interface SpooledStream {
  readonly stream: string;
  readonly firstNumber: number;
  readonly storedNumber: number;
  readonly closed: boolean;
}

export interface SpoolSettings {
  readonly folder: string;
  readonly station: string;
  readonly mostBytes: number;
}

/**
 * Items not yet acknowledged, on the station's disk. What is handed in is written in groups, one
 * fdatasync for each stream, and only then offered for sending. The oldest are kept: when the
 * limit is reached, or the disk is full, new ones are not taken.
 */
export class Spool implements ItemSink {
  /** What had to be cut off or set aside at opening. */
  readonly damage: readonly Damage[];
  readonly #settings: SpoolSettings;
  readonly #streams = new Map<string, Stream>();
  #waiting: WaitingLine[] = [];
  #waitingBytes = 0;
  #heldBytes = 0;
  #flushing: Promise<void> | null = null;
  #failing: Fault | null = null;
  /** Were samples turned away since samples were last taken? */
  #turnedAway = false;

  private constructor(settings: SpoolSettings, damage: readonly Damage[]) {
    this.#settings = settings;
    this.damage = damage;
  }

  static async open(settings: SpoolSettings): Promise<Spool> {
    await makeDataFolder(settings.folder);
    const { streams, damage } = await findStreams(settings.folder, settings.station);
    const spool = new Spool(settings, damage);
    for (const { stream, segments } of streams) {
      spool.#streams.set(stream, {
        stream,
        segments,
        storedNumber: segments.at(-1)!.lastNumber,
        acknowledgedNumber: segments[0]!.firstNumber - 1,
        // The program that wrote it is gone: nothing will be added.
        closed: true,
        claimedBy: null,
        recent: [],
        fileEnds: false,
      });
      for (const { bytes } of segments) spool.#heldBytes += bytes;
    }
    return spool;
  }

  get heldBytes(): number {
    return this.#heldBytes + this.#waitingBytes;
  }

  /** Why nothing can be written now, or null. */
  get failing(): Fault | null {
    return this.#failing;
  }

  /** Why samples find no room now, or null. */
  get refuses(): Fault | null {
    if (this.#failing !== null) return this.#failing;
    if (!this.#turnedAway) return null;
    return new Fault('spool-full', this.#settings.folder, `${this.heldBytes} bytes are held`);
  }

  take(item: StoredItem, urgent: boolean): boolean {
    const line = spoolLine(item.bytes);
    const limit = this.#settings.mostBytes - (urgent ? 0 : URGENT_BYTES);
    const fits =
      this.heldBytes + line.length <= limit &&
      this.#waitingBytes + line.length <= MOST_WAITING_BYTES &&
      (urgent || this.#failing === null);
    if (!urgent) this.#turnedAway = !fits;
    if (!fits) return false;
    this.#waiting.push({ item, line });
    this.#waitingBytes += line.length;
    return true;
  }

  /** Writes what waits and syncs it. Never rejects: a disk that refuses is tried again next time. */
  flush(): Promise<void> {
    this.#flushing ??= this.#flushNow().finally(() => {
      this.#flushing = null;
    });
    return this.#flushing;
  }

  streams(): SpooledStream[] {
    return [...this.#streams.values()]
      .filter(({ segments }) => segments.length > 0)
      .map(({ stream, segments, storedNumber, closed }) => ({
        stream,
        firstNumber: segments[0]!.firstNumber,
        storedNumber,
        closed,
      }));
  }

  /** Stored items from a number on, as many as lie together; empty when there are none. */
  async read(stream: string, fromNumber: number): Promise<readonly StoredItem[]> {
    const held = this.#streams.get(stream);
    if (held === undefined || fromNumber > held.storedNumber) return [];
    const recentFirst = held.recent[0]?.number;
    if (recentFirst !== undefined && fromNumber >= recentFirst) {
      return held.recent.slice(fromNumber - recentFirst);
    }
    const segment = held.segments.find(({ lastNumber }) => lastNumber >= fromNumber);
    if (segment === undefined || segment.firstNumber > fromNumber) return [];
    const { firstNumber, lastNumber, path } = segment;
    const { items } = readSpoolLines(await readFile(path), { stream, firstNumber });
    if (items.length < lastNumber - firstNumber + 1) {
      throw new Fault('spool-damaged', path, `${items.length} sound items`);
    }
    // The file may have grown since: only what is surely on disk is handed out.
    return items.slice(fromNumber - firstNumber, lastNumber - firstNumber + 1);
  }

  /** Forgets everything of a stream up to a number, once that is on the receiver's disk. */
  async acknowledge(stream: string, number: number): Promise<void> {
    const held = this.#streams.get(stream);
    if (held === undefined || number <= held.acknowledgedNumber) return;
    held.acknowledgedNumber = Math.min(number, held.storedNumber);
    const done = held.closed && held.acknowledgedNumber >= held.storedNumber;
    while (held.segments.length > (done ? 0 : 1)) {
      const oldest = held.segments[0]!;
      if (oldest.lastNumber > held.acknowledgedNumber) break;
      held.segments.shift();
      this.#heldBytes -= oldest.bytes;
      await rm(oldest.path, { force: true });
    }
    if (done && held.segments.length === 0) {
      this.#streams.delete(stream);
      await rm(claimPath(this.#settings.folder, stream), { force: true });
    }
  }

  /**
   * Marks a stream as going into a record, once and lastingly, before its first item is sent.
   * Resolves with the record that has it: another one's where that was first.
   */
  async claim(stream: string, record: string): Promise<string> {
    const held = this.#streams.get(stream);
    if (held === undefined) return record;
    const file = claimPath(this.#settings.folder, stream);
    held.claimedBy ??= await readClaim(file);
    if (held.claimedBy === null) {
      held.claimedBy = record;
      // On a full disk it is only remembered: sending must go on, for that is what frees the disk.
      await writeWhole(file, record).catch(() => undefined);
    }
    return held.claimedBy;
  }

  get #mostSegmentBytes(): number {
    return Math.min(MOST_SEGMENT_BYTES, this.#settings.mostBytes / SEGMENTS_IN_SPOOL);
  }

  async #flushNow(): Promise<void> {
    if (this.refuses !== null) await this.#makeRoom();
    const group = this.#waiting;
    if (group.length === 0) return;
    this.#waiting = [];
    const groups = groupByStream(group);
    let failure: Fault | null = null;
    const left: WaitingLine[] = [];
    await Promise.all(
      [...groups].map(async ([stream, lines]) => {
        try {
          await this.#append(stream, lines);
        } catch (error) {
          failure = new Fault('spool-disk', stream, String((error as Error).message));
          left.push(...lines);
        }
      }),
    );
    this.#failing = failure;
    this.#waiting = [...left, ...this.#waiting];
    this.#waitingBytes = this.#waiting.reduce((sum, { line }) => sum + line.length, 0);
  }

  /**
   * A stream's last file is kept while it grows, though all in it be acknowledged. Where room is
   * wanted it goes too, and the next item begins a new one; where some of it is not yet acknowledged
   * it at least grows no longer. Only between two writes.
   */
  async #makeRoom(): Promise<void> {
    for (const held of this.#streams.values()) {
      if (held.acknowledgedNumber < held.storedNumber) {
        held.fileEnds = (held.segments.at(-1)?.bytes ?? 0) >= LEAST_SEGMENT_BYTES;
        continue;
      }
      held.recent = [];
      for (const { path, bytes } of held.segments.splice(0)) {
        this.#heldBytes -= bytes;
        await rm(path, { force: true }).catch(() => undefined);
      }
    }
  }

  async #append(stream: string, lines: readonly WaitingLine[]): Promise<void> {
    const first = lines[0]!.item;
    const held = this.#streams.get(stream) ?? {
      stream,
      segments: [],
      storedNumber: first.number - 1,
      acknowledgedNumber: first.number - 1,
      closed: false,
      claimedBy: null,
      recent: [],
      fileEnds: false,
    };
    const last = held.segments.at(-1);
    const fresh = last === undefined || held.fileEnds || last.bytes >= this.#mostSegmentBytes;
    const segment: Segment = fresh
      ? {
          path: segmentPath(this.#settings.folder, stream, first.number),
          firstNumber: first.number,
          lastNumber: first.number - 1,
          bytes: 0,
        }
      : last;
    await writeSynced(segment, Buffer.concat(lines.map(({ line }) => line)));
    if (fresh) await syncFolder(this.#settings.folder);

    const size = lines.reduce((sum, { line }) => sum + line.length, 0);
    segment.bytes += size;
    this.#heldBytes += size;
    segment.lastNumber = lines.at(-1)!.item.number;
    held.storedNumber = segment.lastNumber;
    held.fileEnds = false;
    if (fresh) held.segments.push(segment);
    const items = lines.map(({ item }) => item);
    held.recent = fresh ? items : [...held.recent, ...items];
    held.closed = items.at(-1)!.closes;
    this.#streams.set(stream, held);
  }
}
