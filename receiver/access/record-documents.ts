import type { IncomingMessage, ServerResponse } from 'node:http';
import { basename } from 'node:path';
import { Fault } from '#core/fault/fault.ts';
import { DOCUMENTS, type DocumentName } from '../export/document-names.ts';
import { type Admit, bearerOf, refuseFile, setAttachment } from './bearer.ts';
import type { WayIn } from './way-in.ts';

export interface RecordDocumentsParts {
  readonly admit: Admit;
  readonly path: string;
  /** Bytes of the record that are on disk for good. */
  readonly savedBytes: () => number;
  readonly make: (path: string, name: DocumentName, endBytes: number) => Promise<Uint8Array>;
}

interface Made {
  readonly name: DocumentName;
  readonly endBytes: number;
  readonly bytes: Promise<Uint8Array>;
}

/**
 * The documents of the record as it stands on disk, for whoever may have its copy. One is made at a
 * time, away from the receiver's loop; who asks for the same meanwhile gets the same, who asks for
 * another is told to come again. The last one is kept until the record grows.
 */
export class RecordDocuments {
  readonly #parts: RecordDocumentsParts;
  #last: Made | null = null;
  #making = false;

  constructor(parts: RecordDocumentsParts) {
    this.#parts = parts;
  }

  serve(request: IncomingMessage, response: ServerResponse, way: WayIn, asked: string): void {
    if (bearerOf(this.#parts.admit, request, response, way) === null) return;
    const name = DOCUMENTS.find((one) => `${one}.pdf` === asked);
    if (name === undefined) {
      refuseFile(
        response,
        404,
        new Fault('report-not-made', 'document', 'there is none of this name'),
      );
      return;
    }
    if (request.method === 'HEAD') {
      this.#setHead(response, name);
      response.end();
      return;
    }
    void this.#answer(response, name);
  }

  async #answer(response: ServerResponse, name: DocumentName): Promise<void> {
    try {
      const bytes = await this.#bytesOf(name);
      this.#setHead(response, name);
      response.setHeader('Content-Length', bytes.length);
      response.end(bytes);
    } catch (error) {
      const fault =
        error instanceof Fault ? error : new Fault('report-not-made', name, String(error));
      const busy = fault.code === 'report-busy';
      if (busy) response.setHeader('Retry-After', '10');
      refuseFile(response, busy ? 503 : 500, fault);
    }
  }

  #setHead(response: ServerResponse, name: DocumentName): void {
    const record = basename(this.#parts.path).replace(/\.hwr$/, '');
    setAttachment(response, 'application/pdf', `${record}-${name}.pdf`);
  }

  #bytesOf(name: DocumentName): Promise<Uint8Array> {
    const endBytes = this.#parts.savedBytes();
    const last = this.#last;
    if (last?.name === name && (this.#making || last.endBytes === endBytes)) return last.bytes;
    if (this.#making)
      return Promise.reject(new Fault('report-busy', name, 'another document is being made'));
    this.#making = true;
    const bytes = this.#parts.make(this.#parts.path, name, endBytes);
    this.#last = { name, endBytes, bytes };
    const done = (failed: boolean) => {
      this.#making = false;
      if (failed) this.#last = null;
    };
    bytes.then(
      () => done(false),
      () => done(true),
    );
    return bytes;
  }
}
