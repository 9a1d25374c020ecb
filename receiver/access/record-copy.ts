import { createReadStream } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { basename } from 'node:path';
import { pipeline } from 'node:stream';
import { FAULTS, Fault } from '#core/fault/fault.ts';
import { ACCESS_VERSION } from '#core/wire/access-message.ts';
import type { AdmittedBy } from './doorkeeper.ts';
import type { WayIn } from './way-in.ts';

/** A copy is a hundred megabytes: more at once would hold the day's own traffic up. */
const MOST_AT_ONCE = 6;
/** A copy that nobody takes a byte of for so long is ended. */
const USUAL_STALLED_AFTER_S = 30;

export interface RecordCopyParts {
  readonly admit: (text: string, way: WayIn) => AdmittedBy;
  readonly path: string;
  /** Bytes of the record that are on disk for good. */
  readonly savedBytes: () => number;
  readonly stalledAfterS?: number;
}

/**
 * The record as it stands on disk, for whoever was let in as architect, witness or technician: a
 * file to keep, that `verify` or the scripts of the README check. The token comes in Authorization
 * only, so that no other page and no link can fetch it. Everybody has one copy under way at most, a
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
    let by: string;
    try {
      by = this.#admit(request.headers.authorization, way);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      response.setHeader('WWW-Authenticate', 'Bearer');
      refuse(response, 401, error);
      return;
    }
    this.#send(request, response, by);
  }

  /** Whose copy it is, as the digest of their token. */
  #admit(authorization: string | undefined, way: WayIn): string {
    const token = /^Bearer ([\w-]{1,100})$/.exec(authorization ?? '')?.[1];
    if (token === undefined) throw new Fault('access-not-said', 'record', 'no token is given');
    const message = { type: 'token', version: ACCESS_VERSION, token, name: '' };
    const { admitted, tokenSha256 } = this.#parts.admit(JSON.stringify(message), way);
    if (admitted.role === 'device')
      throw new Fault('act-not-yours', 'record', 'a board side takes no copy');
    return tokenSha256;
  }

  #send(request: IncomingMessage, response: ServerResponse, by: string): void {
    const { path, savedBytes, stalledAfterS = USUAL_STALLED_AFTER_S } = this.#parts;
    const bytes = savedBytes();
    response.setHeader('Content-Type', 'application/octet-stream');
    response.setHeader('Content-Disposition', `attachment; filename="${plainName(path)}"`);
    response.setHeader('Content-Length', bytes);
    response.setHeader('Cache-Control', 'no-store');
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

function plainName(path: string): string {
  return basename(path).replace(/[^\w.-]/g, '_');
}

function refuse(response: ServerResponse, status: number, { report }: Fault): void {
  response.statusCode = status;
  response.setHeader('Content-Type', 'application/json');
  response.setHeader('Cache-Control', 'no-store');
  response.end(JSON.stringify({ ...report, remedy: FAULTS[report.code].remedy }));
}
