import { createHash } from 'node:crypto';
import { closeSync, openSync, writeSync } from 'node:fs';
import { constants, crc32, deflateRawSync } from 'node:zlib';
import { Fault } from '#core/fault/fault.ts';

/** Packed alone, so that any size goes through little memory. */
const CHUNK_BYTES = 512 * 1024;
/** An empty last block of deflate (RFC 1951, 3.2.4). */
const LAST_BLOCK = Uint8Array.of(3, 0);
const MOST_BYTES = 0xffff_ffff;
const MOST_FILES = 1000;
/** Deflate, names in UTF-8 (APPNOTE 6.3.9, 4.4.4 and 4.4.5). */
const METHOD = 8;
const UTF_8 = 0x0800;
const VERSION = 20;
const LOCAL_BYTES = 30;

interface Entry {
  readonly name: Buffer;
  readonly at: number;
  crc: number;
  packed: number;
  bytes: number;
}

/**
 * A new ZIP file, written from beginning to end without holding a file of it in memory; all files
 * carry one date, so that the same contents give the same bytes. Throws `file-not-writable` where
 * it cannot be made or stands already, `input-too-large` over 4 GB or a thousand files.
 */
export class ZipFile {
  readonly #path: string;
  readonly #descriptor: number;
  readonly #date: { readonly time: number; readonly day: number };
  readonly #entries: Entry[] = [];
  #position = 0;

  constructor(path: string, wall: string) {
    this.#path = path;
    this.#date = dosDate(wall);
    try {
      this.#descriptor = openSync(path, 'wx');
    } catch (error) {
      throw new Fault('file-not-writable', path, (error as Error).message);
    }
  }

  /** One file, its bytes given in pieces; gives its SHA-256, hex. */
  add(name: string, fill: (write: (bytes: Uint8Array) => void) => void): string {
    if (this.#entries.length >= MOST_FILES)
      throw new Fault('input-too-large', this.#path, `over ${MOST_FILES} files`);
    const entry: Entry = {
      name: Buffer.from(name),
      at: this.#position,
      crc: 0,
      packed: 0,
      bytes: 0,
    };
    this.#entries.push(entry);
    this.#write(this.#localHeader(entry));
    const digest = createHash('sha256');
    let waiting: Uint8Array[] = [];
    let held = 0;
    const pack = () => {
      const bytes = Buffer.concat(waiting);
      waiting = [];
      held = 0;
      if (bytes.length === 0) return;
      digest.update(bytes);
      entry.crc = crc32(bytes, entry.crc);
      entry.bytes += bytes.length;
      this.#pack(entry, deflateRawSync(bytes, { finishFlush: constants.Z_SYNC_FLUSH }));
    };
    fill((bytes) => {
      // what is handed in may be written over by its owner
      waiting.push(Uint8Array.from(bytes));
      held += bytes.length;
      if (held >= CHUNK_BYTES) pack();
    });
    pack();
    this.#pack(entry, LAST_BLOCK);
    writeSync(this.#descriptor, this.#localHeader(entry), 0, LOCAL_BYTES, entry.at);
    return digest.digest('hex');
  }

  /** The table of contents; nothing can be added after it. */
  close(): void {
    const at = this.#position;
    for (const entry of this.#entries) this.#write(this.#centralHeader(entry));
    const end = Buffer.alloc(22);
    end.writeUInt32LE(0x06054b50, 0);
    end.writeUInt16LE(this.#entries.length, 8);
    end.writeUInt16LE(this.#entries.length, 10);
    end.writeUInt32LE(this.#position - at, 12);
    end.writeUInt32LE(at, 16);
    this.#write(end);
    closeSync(this.#descriptor);
  }

  /** Given up: what was written is no ZIP. */
  abandon(): void {
    closeSync(this.#descriptor);
  }

  #pack(entry: Entry, packed: Uint8Array): void {
    entry.packed += packed.length;
    this.#write(packed);
    if (entry.bytes > MOST_BYTES)
      throw new Fault('input-too-large', this.#path, `${entry.name} is over 4 GB`);
  }

  #write(bytes: Uint8Array): void {
    if (this.#position + bytes.length > MOST_BYTES)
      throw new Fault('input-too-large', this.#path, 'over 4 GB');
    let written = 0;
    while (written < bytes.length)
      written += writeSync(
        this.#descriptor,
        bytes,
        written,
        bytes.length - written,
        this.#position + written,
      );
    this.#position += bytes.length;
  }

  #localHeader(entry: Entry): Buffer {
    const header = Buffer.alloc(LOCAL_BYTES);
    header.writeUInt32LE(0x04034b50, 0);
    this.#common(header, 4, entry);
    return Buffer.concat([header, entry.name]);
  }

  #centralHeader(entry: Entry): Buffer {
    const header = Buffer.alloc(46);
    header.writeUInt32LE(0x02014b50, 0);
    header.writeUInt16LE(VERSION, 4);
    this.#common(header, 6, entry);
    header.writeUInt32LE(entry.at, 42);
    return Buffer.concat([header, entry.name]);
  }

  /** Fields that stand alike in both headers. */
  #common(header: Buffer, at: number, { name, crc, packed, bytes }: Entry): void {
    header.writeUInt16LE(VERSION, at);
    header.writeUInt16LE(UTF_8, at + 2);
    header.writeUInt16LE(METHOD, at + 4);
    header.writeUInt16LE(this.#date.time, at + 6);
    header.writeUInt16LE(this.#date.day, at + 8);
    header.writeUInt32LE(crc, at + 10);
    header.writeUInt32LE(packed, at + 14);
    header.writeUInt32LE(bytes, at + 18);
    header.writeUInt16LE(name.length, at + 22);
  }
}

/** MS-DOS date and time, UTC; nothing before 1980 can be said. */
function dosDate(wall: string): { time: number; day: number } {
  const at = new Date(wall);
  const year = Math.max(1980, at.getUTCFullYear());
  return {
    time: (at.getUTCHours() << 11) | (at.getUTCMinutes() << 5) | (at.getUTCSeconds() >> 1),
    day: ((year - 1980) << 9) | ((at.getUTCMonth() + 1) << 5) | at.getUTCDate(),
  };
}
