import { open } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { Fault } from '#core/fault/fault.ts';
import { readLine } from '#core/record/read-line.ts';
import { type Admit, bearerOf, refuseFile } from './bearer.ts';
import type { WayIn } from './way-in.ts';

/** Where the lines of photographs begin in the record's file, and how long they are. */
export class PhotographPlaces {
  readonly #places = new Map<number, { fromByte: number; bytes: number }>();
  #atByte = 0;

  /** Every line of the record in its order. */
  follow(line: { readonly n: number; readonly kind: string }, bytes: number): void {
    if (line.kind === 'photograph') this.#places.set(line.n, { fromByte: this.#atByte, bytes });
    this.#atByte += bytes;
  }

  of(line: number): { fromByte: number; bytes: number } | undefined {
    return this.#places.get(line);
  }
}

export interface PhotographParts {
  readonly admit: Admit;
  readonly path: string;
  readonly places: PhotographPlaces;
  /** Bytes of the record that are on disk for good. */
  readonly savedBytes: () => number;
}

/**
 * One photograph of the record, for whoever may have its copy; `asked` is the number of its line. The
 * picture is a stranger's bytes: it goes out as nothing but a JPEG.
 */
export async function servePhotograph(
  parts: PhotographParts,
  request: IncomingMessage,
  response: ServerResponse,
  way: WayIn,
  asked: string,
): Promise<void> {
  if (bearerOf(parts.admit, request, response, way) === null) return;
  const place = /^\d{1,9}$/.test(asked) ? parts.places.of(Number(asked)) : undefined;
  if (place === undefined || place.fromByte + place.bytes > parts.savedBytes()) {
    const none = new Fault('photograph-unfit', 'photograph', 'no photograph stands in that line');
    refuseFile(response, 404, none);
    return;
  }
  try {
    const jpeg = await jpegAt(parts.path, place);
    response.setHeader('Content-Type', 'image/jpeg');
    // A line never changes: a browser that has it need not ask again.
    response.setHeader('Cache-Control', 'private, max-age=31536000, immutable');
    response.setHeader('Content-Length', jpeg.length);
    response.end(request.method === 'HEAD' ? undefined : jpeg);
  } catch (error) {
    const found = error instanceof Error ? error.message : String(error);
    refuseFile(response, 500, new Fault('file-not-readable', parts.path, found));
  }
}

async function jpegAt(path: string, place: { fromByte: number; bytes: number }): Promise<Buffer> {
  const file = await open(path, 'r');
  try {
    const bytes = Buffer.alloc(place.bytes);
    await file.read(bytes, 0, place.bytes, place.fromByte);
    const { line } = readLine(bytes, path);
    return Buffer.from(line.kind === 'photograph' ? line.body.jpeg : '', 'base64');
  } finally {
    await file.close();
  }
}
