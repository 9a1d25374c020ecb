import { hash } from 'node:crypto';
import type { HexDigest } from '#core/digest/sha-256.ts';

/** SHA-256 by Node's own library: some ten times as fast as the one in core, and held equal to it. */
export const nodeSha256Hex: HexDigest = (bytes) => hash('sha256', bytes, 'hex');
