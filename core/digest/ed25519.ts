import { getPublicKey, hashes, sign, verify } from '@noble/ed25519';
import { sha512 } from '@noble/hashes/sha2.js';

// Browsers withhold their own hashing from pages on plain http; this one works everywhere.
hashes.sha512 = sha512;

export const SECRET_KEY_BYTES = 32;

/** Ed25519 (RFC 8032): the 32 bytes that belong to a secret of 32 bytes. */
export function publicKeyOf(secretKey: Uint8Array): Uint8Array {
  return getPublicKey(secretKey);
}

export function signBytes(message: Uint8Array, secretKey: Uint8Array): Uint8Array {
  return sign(message, secretKey);
}

/** False for a wrong signature and for bytes that are no signature or no key at all. */
export function isSignatureOf(
  signature: Uint8Array,
  message: Uint8Array,
  publicKey: Uint8Array,
): boolean {
  if (signature.length !== 64 || publicKey.length !== 32) return false;
  try {
    // Strict: a key or signature that other verifiers would refuse (small order) is refused here too.
    return verify(signature, message, publicKey, { zip215: false });
  } catch {
    return false;
  }
}
