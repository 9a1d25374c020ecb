import { base64UrlOf } from '#core/digest/base64-url.ts';
import { publicKeyOf, signBytes } from '#core/digest/ed25519.ts';
import { sha256Hex } from '#core/digest/sha-256.ts';
import { utf8FromText } from '#core/digest/utf-8.ts';
import type { KnownHead } from '#core/record/known-head.ts';
import type { LineBody } from '#core/record/line.ts';
import { receiptSignedText, sealSignedText } from '#core/record/signed-by-key.ts';

/** A person's key, the same for the same name. */
export class PersonKey {
  readonly publicKey: string;
  readonly #secret: Uint8Array;

  constructor(name: string) {
    this.#secret = Uint8Array.from(Buffer.from(sha256Hex(utf8FromText(name)), 'hex'));
    this.publicKey = base64UrlOf(publicKeyOf(this.#secret));
  }

  receipt(record: string, { lines, head }: KnownHead): LineBody<'receipt-taken'> {
    const text = receiptSignedText({ record, number: lines, digest: head });
    return { lines, head, publicKey: this.publicKey, signature: this.#sign(text) };
  }

  signature(record: string, seal: number, digest: string): LineBody<'signature'> {
    const text = sealSignedText({ record, number: seal, digest });
    return { seal, publicKey: this.publicKey, signature: this.#sign(text) };
  }

  #sign(text: Uint8Array): string {
    return base64UrlOf(signBytes(text, this.#secret));
  }
}
