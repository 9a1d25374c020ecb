import type { HexDigest } from '../digest/sha-256.ts';
import { Fault } from '../fault/fault.ts';
import { type ChainHead, chainAfter } from './chain.ts';
import { type LineRead, readLine } from './read-line.ts';

/**
 * The next line of a record, proven to follow: well formed, the right number, and `prev` is the
 * digest of the line before. Returns it with the chain after it; throws `record-line`,
 * `record-newer` or `record-chain` naming the line.
 */
export function followLine(
  chain: ChainHead,
  bytes: Uint8Array,
  digest: HexDigest,
): { read: LineRead; chain: ChainHead } {
  const where = `line ${chain.next}`;
  const read = readLine(bytes, where);
  if (read.line.n !== chain.next)
    throw new Fault('record-chain', where, `it carries number ${read.line.n}`);
  if (read.line.prev !== chain.head)
    throw new Fault('record-chain', where, 'its prev is not the digest of the line before');
  if ((chain.next === 0) !== (read.line.kind === 'record-opened'))
    throw new Fault('record-chain', where, `kind ${read.line.kind} cannot stand here`);
  return { read, chain: chainAfter(chain, bytes, digest) };
}
