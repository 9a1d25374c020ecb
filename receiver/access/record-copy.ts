import { createReadStream } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { basename } from 'node:path';
import { pipeline } from 'node:stream';
import { type Admit, bearerOf, setAttachment } from './bearer.ts';
import type { WayIn } from './way-in.ts';

/** A copy is a hundred megabytes: more at once would hold the day's own traffic up. */
const MOST_AT_ONCE = 6;
/** A copy that nobody takes a byte of for so long is ended. */
const USUAL_STALLED_AFTER_S = 30;

export interface RecordCopyParts {
  readonly admit: Admit;
  readonly path: string;
  /** Bytes of the record that are on disk for good. */
  readonly savedBytes: () => number;
  readonly stalledAfterS?: number;
}

/**
 * The record as it stands on disk, for whoever was let in as architect, witness or technician: a
 * file to keep, that `verify` or the scripts of the README check.
 * Everybody has one copy under way at most, a
 * new one ends their last; and when too many are, the oldest gives way: nobody can keep others from theirs.
 */
export class RecordCopies {
  readonly #parts: RecordCopyParts;
  /** Copies under way by the digest of their token, the oldest first. */
  readonly #underWay = new Map<string, ServerResponse>();

  constructor(parts: RecordCopyParts) {
    this.#parts = parts;
  }

  serve(request: IncomingMessage, response: ServerResponse, way: WayIn): void {
    const by = bearerOf(this.#parts.admit, request, response, way);
    if (by === null) return;
    this.#send(request, response, by);
  }

  #send(request: IncomingMessage, response: ServerResponse, by: string): void {
    const { path, savedBytes, stalledAfterS = USUAL_STALLED_AFTER_S } = this.#parts;
    const bytes = savedBytes();
    setAttachment(response, 'application/octet-stream', basename(path));
    response.setHeader('Content-Length', bytes);
    if (request.method === 'HEAD' || bytes === 0) {
      response.end();
      return;
    }
    this.#makeRoom(by);
    this.#underWay.set(by, response);
    response.setTimeout(stalledAfterS * 1000, () => response.destroy());
    // Somebody who goes away in the middle is nobody's fault.
    pipeline(createReadStream(path, { end: bytes - 1 }), response, () => {
      if (this.#underWay.get(by) === response) this.#underWay.delete(by);
    });
  }

  #makeRoom(by: string): void {
    const [oldest] = this.#underWay.keys();
    const gone = this.#underWay.has(by)
      ? by
      : this.#underWay.size < MOST_AT_ONCE
        ? undefined
        : oldest;
    if (gone === undefined) return;
    this.#underWay.get(gone)?.destroy();
    this.#underWay.delete(gone);
  }
}
