import { createHash } from 'node:crypto';
import { closeSync, openSync, writeSync } from 'node:fs';
import { Zip, ZipDeflate } from 'fflate';
import { Fault } from '#core/fault/fault.ts';

/** Above it the format needs an extension that not every reader has. */
const MOST_BYTES = 0xffff_ffff;
const MOST_FILES = 1000;
/** Handed to the packer together: it is slow with a line at a time. */
const CHUNK_BYTES = 512 * 1024;

/**
 * A new ZIP file, written from beginning to end without holding a file of it in memory; all files
 * carry one date, so that the same contents give the same bytes. Throws `file-not-writable` where
 * it cannot be made or stands already, `input-too-large` over 4 GB or a thousand files.
 */
export class ZipFile {
  readonly #path: string;
  readonly #descriptor: number;
  readonly #date: Date;
  readonly #zip: Zip;
  #files = 0;
  #bytes = 0;

  constructor(path: string, wall: string) {
    this.#path = path;
    this.#date = asLocal(wall);
    this.#zip = new Zip((error, bytes) => {
      if (error !== null) throw error;
      this.#write(bytes);
    });
    try {
      this.#descriptor = openSync(path, 'wx');
    } catch (error) {
      throw new Fault('file-not-writable', path, (error as Error).message);
    }
  }

  /** One file, its bytes given in pieces; gives its SHA-256, hex. */
  add(name: string, fill: (write: (bytes: Uint8Array) => void) => void): string {
    this.#files += 1;
    if (this.#files > MOST_FILES)
      throw new Fault('input-too-large', this.#path, `over ${MOST_FILES} files`);
    const file = new ZipDeflate(name);
    file.mtime = this.#date;
    this.#zip.add(file);
    const digest = createHash('sha256');
    let waiting: Uint8Array[] = [];
    let held = 0;
    let whole = 0;
    const pack = (last: boolean) => {
      file.push(Buffer.concat(waiting), last);
      waiting = [];
      held = 0;
    };
    fill((bytes) => {
      digest.update(bytes);
      whole += bytes.length;
      if (whole > MOST_BYTES)
        throw new Fault('input-too-large', this.#path, `${name} is over 4 GB`);
      // what is handed in may be written over by its owner
      waiting.push(Uint8Array.from(bytes));
      held += bytes.length;
      if (held >= CHUNK_BYTES) pack(false);
    });
    pack(true);
    return digest.digest('hex');
  }

  /** The table of contents; nothing can be added after it. */
  close(): void {
    this.#zip.end();
    closeSync(this.#descriptor);
  }

  /** Given up: what was written is no ZIP. */
  abandon(): void {
    closeSync(this.#descriptor);
  }

  #write(bytes: Uint8Array): void {
    this.#bytes += bytes.length;
    if (this.#bytes > MOST_BYTES) throw new Fault('input-too-large', this.#path, 'over 4 GB');
    for (let done = 0; done < bytes.length; )
      done += writeSync(this.#descriptor, bytes, done, bytes.length - done);
  }
}

/** The format keeps the hands of a clock without its zone: here UTC, wherever the file is made. */
function asLocal(wall: string): Date {
  const at = new Date(wall);
  return new Date(
    at.getUTCFullYear(),
    at.getUTCMonth(),
    at.getUTCDate(),
    at.getUTCHours(),
    at.getUTCMinutes(),
    at.getUTCSeconds(),
  );
}
