import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** A function from bytes to the 64 lower-case hex digits of their SHA-256 (FIPS 180-4). */
export type HexDigest = (bytes: Uint8Array) => string;

/**
 * SHA-256 in plain JavaScript: the same in Node, in a page and on plain http, where a browser
 * withholds its own. The receiver hands in a faster one; a test holds the two equal.
 */
export const sha256Hex: HexDigest = (bytes) => bytesToHex(sha256(bytes));
