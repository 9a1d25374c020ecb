import { createReadStream } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { basename } from 'node:path';
import { pipeline } from 'node:stream';
import { FAULTS, Fault } from '#core/fault/fault.ts';
import { ACCESS_VERSION } from '#core/wire/access-message.ts';
import type { AdmittedBy } from './doorkeeper.ts';
import type { WayIn } from './way-in.ts';

/** A copy is a hundred megabytes: more at once would hold the day's own traffic up. */
const MOST_AT_ONCE = 3;

export interface RecordCopyParts {
  readonly admit: (text: string, way: WayIn) => AdmittedBy;
  readonly path: string;
  /** Bytes of the record that are on disk for good. */
  readonly savedBytes: () => number;
}

/**
 * The record as it stands on disk, for whoever was let in as architect, witness or technician: a
 * file to keep, that `verify` or the scripts of the README check. The token comes in Authorization
 * only, so that no other page and no link can fetch it.
 */
export class RecordCopies {
  readonly #parts: RecordCopyParts;
  #underWay = 0;

  constructor(parts: RecordCopyParts) {
    this.#parts = parts;
  }

  serve(request: IncomingMessage, response: ServerResponse, way: WayIn): void {
    try {
      this.#admit(request.headers.authorization, way);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      response.setHeader('WWW-Authenticate', 'Bearer');
      refuse(response, 401, error);
      return;
    }
    if (this.#underWay >= MOST_AT_ONCE) {
      const found = `${MOST_AT_ONCE} copies are being fetched`;
      refuse(response, 503, new Fault('access-crowded', 'record', found));
      return;
    }
    this.#send(request, response);
  }

  #admit(authorization: string | undefined, way: WayIn): void {
    const token = /^Bearer ([\w-]{1,100})$/.exec(authorization ?? '')?.[1];
    if (token === undefined) throw new Fault('access-not-said', 'record', 'no token is given');
    const message = { type: 'token', version: ACCESS_VERSION, token, name: '' };
    const { admitted } = this.#parts.admit(JSON.stringify(message), way);
    if (admitted.role === 'device')
      throw new Fault('act-not-yours', 'record', 'a board side takes no copy');
  }

  #send(request: IncomingMessage, response: ServerResponse): void {
    const { path, savedBytes } = this.#parts;
    const bytes = savedBytes();
    response.setHeader('Content-Type', 'application/octet-stream');
    response.setHeader('Content-Disposition', `attachment; filename="${plainName(path)}"`);
    response.setHeader('Content-Length', bytes);
    response.setHeader('Cache-Control', 'no-store');
    if (request.method === 'HEAD' || bytes === 0) {
      response.end();
      return;
    }
    this.#underWay += 1;
    // Somebody who goes away in the middle is nobody's fault.
    pipeline(createReadStream(path, { end: bytes - 1 }), response, () => {
      this.#underWay -= 1;
    });
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
