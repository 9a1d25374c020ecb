import { bytesOfBase64Url } from '../digest/base64-url.ts';
import { isSignatureOf } from '../digest/ed25519.ts';
import { utf8FromText } from '../digest/utf-8.ts';
import { Fault } from '../fault/fault.ts';
import type { Line } from './line.ts';

/** A line's number and digest in a record: what a key says it has seen. */
export interface Seen {
  /** Id of the record, of its first line. */
  readonly record: string;
  /** Of a receipt: how many lines there were. Of a seal: the number of its line. */
  readonly number: number;
  /** SHA-256 of the last of these lines, or of the seal's line; hex. */
  readonly digest: string;
}

/** The very bytes a receipt's signature is of; written in the README, so that anyone can check it. */
export function receiptSignedText({ record, number, digest }: Seen): Uint8Array {
  return utf8FromText(`heelwright receipt 1\n${record}\n${number}\n${digest}\n`);
}

/** The very bytes a seal's signature is of. */
export function sealSignedText({ record, number, digest }: Seen): Uint8Array {
  return utf8FromText(`heelwright seal 1\n${record}\n${number}\n${digest}\n`);
}

/** Key and signature in base64url. */
export function isSigned(text: Uint8Array, signature: string, publicKey: string): boolean {
  const signatureBytes = bytesOfBase64Url(signature);
  const keyBytes = bytesOfBase64Url(publicKey);
  if (signatureBytes === null || keyBytes === null) return false;
  return isSignatureOf(signatureBytes, text, keyBytes);
}

/**
 * Holds the receipts and signatures in a record against its own lines. A record written anew from
 * some line on, chained rightly, still carries signatures that are of what stood there before.
 */
export class SignedCheck {
  /** Digest of line n - 1 at n: as each line carries it. */
  readonly #prevOf: string[] = [];
  #record = '';

  /** A line that follows. Throws `record-signature` naming the first that does not hold. */
  follow(line: Line): void {
    this.#prevOf[line.n] = line.prev;
    if (line.kind === 'record-opened') this.#record = line.body.record;
    if (line.kind === 'receipt-taken') {
      const { lines, head, publicKey, signature } = line.body;
      const seen = { record: this.#record, number: lines, digest: head };
      if (this.#prevOf[lines] !== head) throw broken(line.n);
      if (!isSigned(receiptSignedText(seen), signature, publicKey)) throw broken(line.n);
    }
    if (line.kind === 'signature') {
      const { seal, publicKey, signature } = line.body;
      const digest = this.#prevOf[seal + 1];
      const record = this.#record;
      if (digest === undefined) throw broken(line.n);
      if (!isSigned(sealSignedText({ record, number: seal, digest }), signature, publicKey))
        throw broken(line.n);
    }
  }
}

function broken(line: number): Fault {
  return new Fault(
    'record-signature',
    `line ${line}`,
    'the signature is not of the lines that stand before it: they were written anew',
  );
}
