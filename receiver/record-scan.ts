import { fstatSync, readSync } from 'node:fs';
import { Fault } from '#core/fault/fault.ts';
import { type ChainHead, EMPTY_CHAIN } from '#core/record/chain.ts';
import { followLine } from '#core/record/follow-chain.ts';
import { MOST_LINE_BYTES } from '#core/record/line.ts';
import { type LineRead, readLine } from '#core/record/read-line.ts';
import { nodeSha256Hex } from './node-digest.ts';

const CHUNK_BYTES = 1024 * 1024;
const NEWLINE = 0x0a;
const RECORD_BEGINS = '{"n":0,"kind":"record-opened",';

/** How a record's lines ended: all hold, or from a byte on they do not. */
export interface ScanResult {
  readonly chain: ChainHead;
  /** Bytes of the lines that hold. */
  readonly goodBytes: number;
  readonly totalBytes: number;
  /** Why the first line that does not hold does not; null when all hold. */
  readonly fault: Fault | null;
}

/**
 * Follows the lines of an open file from its beginning, handing on each that holds with its bytes,
 * and stops at the first that does not. A fault thrown by `follow` counts as the line's. Of a file
 * that is being written, `endBytes` are known to be whole lines.
 */
export function scanRecord(
  descriptor: number,
  follow: (read: LineRead, bytes: Uint8Array) => void,
  endBytes = Number.POSITIVE_INFINITY,
): ScanResult {
  let chain = EMPTY_CHAIN;
  let goodBytes = 0;
  let fault: Fault | null = null;
  const source = new LineSource(descriptor, 0, endBytes);
  for (let bytes = source.next(); bytes !== null; bytes = source.next()) {
    try {
      const followed = followLine(chain, bytes, nodeSha256Hex);
      follow(followed.read, bytes);
      chain = followed.chain;
      goodBytes += bytes.length;
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      fault = error;
      break;
    }
  }
  return { chain, goodBytes, totalBytes: fstatSync(descriptor).size, fault };
}

/**
 * Is what stands from here to the end of the file the torn end of a write cut short by a power
 * failure? Yes when no whole line follows, or when the first bad bytes hold a NUL: a file system
 * leaves pages of zeros where it had not written yet, and JSON never holds one. Otherwise lines
 * were changed, and a record is not cut for that.
 */
export function isTornEnd(descriptor: number, goodBytes: number): boolean {
  const source = new LineSource(descriptor, goodBytes);
  const first = source.next();
  if (first === null) return true;
  // Whoever names some other file by mistake shall not find it cut.
  if (goodBytes === 0 && !beginsAsRecord(first)) return false;
  if (first.includes(0)) return true;
  if (isReadable(first)) return false;
  for (let bytes = source.next(); bytes !== null; bytes = source.next())
    if (isReadable(bytes)) return false;
  return true;
}

function beginsAsRecord(first: Uint8Array): boolean {
  const text = Buffer.from(first.subarray(0, RECORD_BEGINS.length)).toString('latin1');
  return RECORD_BEGINS.startsWith(text.replace(/\0+$/, ''));
}

function isReadable(bytes: Uint8Array): boolean {
  try {
    readLine(bytes, 'end');
    return true;
  } catch (error) {
    // A newer program's line is a whole line too.
    return error instanceof Fault && error.code === 'record-newer';
  }
}

/** Lines of a file with their newline; the last piece may lack it, a piece over the limit is handed on cut there. */
class LineSource {
  readonly #descriptor: number;
  readonly #endBytes: number;
  #position: number;
  #buffer: Buffer = Buffer.alloc(0);
  #ended = false;

  constructor(descriptor: number, position: number, endBytes = Number.POSITIVE_INFINITY) {
    this.#descriptor = descriptor;
    this.#position = position;
    this.#endBytes = endBytes;
  }

  next(): Uint8Array | null {
    let searched = 0;
    for (;;) {
      const at = this.#buffer.indexOf(NEWLINE, searched);
      if (at >= 0) return this.#take(at + 1);
      searched = this.#buffer.length;
      if (this.#buffer.length > MOST_LINE_BYTES) return this.#take(this.#buffer.length);
      if (this.#ended) return this.#buffer.length === 0 ? null : this.#take(this.#buffer.length);
      this.#fill();
    }
  }

  #take(length: number): Uint8Array {
    const taken = this.#buffer.subarray(0, length);
    this.#buffer = this.#buffer.subarray(length);
    return taken;
  }

  #fill(): void {
    const chunk = Buffer.allocUnsafe(CHUNK_BYTES);
    const wanted = Math.min(CHUNK_BYTES, this.#endBytes - this.#position);
    const got = wanted <= 0 ? 0 : readSync(this.#descriptor, chunk, 0, wanted, this.#position);
    this.#position += got;
    if (got === 0) this.#ended = true;
    else this.#buffer = Buffer.concat([this.#buffer, chunk.subarray(0, got)]);
  }
}
