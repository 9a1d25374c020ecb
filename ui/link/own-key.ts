import { base64UrlOf, bytesOfBase64Url } from '#core/digest/base64-url.ts';
import { publicKeyOf, SECRET_KEY_BYTES, signBytes } from '#core/digest/ed25519.ts';
import type { Kept } from './person.ts';

const KEY = 'heelwright-own-key';

/**
 * A key of this browser's own, made at first use and never sent anywhere: what it signs only this
 * person's device can have signed. Made without the browser's own signing, which plain http has not.
 */
export class OwnKey {
  readonly #kept: Kept;
  readonly #random: (bytes: number) => Uint8Array;

  constructor(kept: Kept, random: (bytes: number) => Uint8Array) {
    this.#kept = kept;
    this.#random = random;
  }

  get publicKey(): string {
    return base64UrlOf(publicKeyOf(this.#secret()));
  }

  /** Base64url. */
  sign(text: Uint8Array): string {
    return base64UrlOf(signBytes(text, this.#secret()));
  }

  #secret(): Uint8Array {
    const before = bytesOfBase64Url(this.#kept.getItem(KEY) ?? '');
    if (before?.length === SECRET_KEY_BYTES) return before;
    const secret = this.#random(SECRET_KEY_BYTES);
    this.#kept.setItem(KEY, base64UrlOf(secret));
    return secret;
  }
}
