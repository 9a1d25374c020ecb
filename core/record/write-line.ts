import { utf8FromText } from '../digest/utf-8.ts';
import { Fault } from '../fault/fault.ts';
import type { ChainHead } from './chain.ts';
import { type LineKind, MOST_LINE_BYTES, type Role } from './line.ts';

/** Everything of a line but its place in the chain. */
export interface LineToWrite {
  readonly kind: LineKind;
  /** ISO 8601 in UTC with milliseconds. */
  readonly wall: string;
  readonly receiverS: number;
  readonly author: string;
  readonly role: Role;
  /** The body as JSON text: of a stream item its own bytes, so that nothing is serialised twice. */
  readonly bodyText: string;
}

/**
 * The exact bytes of a line with its newline. Throws `record-line` when the body holds a raw
 * newline (it would end the line early), when the time is not finite, or over 2 MB.
 */
export function lineBytes(chain: ChainHead, line: LineToWrite): Uint8Array {
  const where = `line ${chain.next} (${line.kind})`;
  if (line.bodyText.includes('\n') || line.bodyText.includes('\r'))
    throw new Fault('record-line', where, 'a newline in the body');
  if (!Number.isFinite(line.receiverS))
    throw new Fault('record-line', where, `receiver time ${line.receiverS}`);
  const bytes = utf8FromText(
    `{"n":${chain.next},"kind":"${line.kind}","v":1,"prev":"${chain.head}",` +
      `"wall":"${line.wall}","receiverS":${line.receiverS},` +
      `"author":${JSON.stringify(line.author)},"role":"${line.role}","body":${line.bodyText}}\n`,
  );
  if (bytes.length > MOST_LINE_BYTES)
    throw new Fault('record-line', where, `${bytes.length} bytes, at most ${MOST_LINE_BYTES}`);
  return bytes;
}
