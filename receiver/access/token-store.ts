import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { base64UrlOf } from '#core/digest/base64-url.ts';
import { utf8FromText } from '#core/digest/utf-8.ts';
import { Fault } from '#core/fault/fault.ts';
import { ADMITTED_ROLES, type AdmittedRole } from '#core/wire/access-message.ts';
import { nodeSha256Hex } from '../node-digest.ts';
import { writeOwnFile } from './own-file.ts';

export const TOKEN_BYTES = 32;
/** More people and board sides than any dock has seen; a full store says so. */
const MOST_TOKENS = 500;

const kept = z.strictObject({
  tokens: z
    .array(
      z.strictObject({
        /** SHA-256 of the token: who reads this file can open nothing with it. */
        sha256: z.string().regex(/^[0-9a-f]{64}$/),
        role: z.enum(ADMITTED_ROLES),
        name: z.string().min(1).max(64),
        admitted: z.iso.datetime(),
      }),
    )
    .max(MOST_TOKENS),
  /** Ed25519 public keys of stations that were here: another key is another station. */
  stations: z
    .array(z.strictObject({ station: z.string().min(1).max(64), publicKey: z.string().max(64) }))
    .max(MOST_TOKENS),
});
type Kept = z.infer<typeof kept>;
export type KeptToken = Kept['tokens'][number];

/**
 * Tokens that open this receiver, by their digests, in one file for its owner only. Looking one up
 * by its digest takes the same time whoever guesses, and a guess of 256 bits is none.
 */
export class TokenStore {
  readonly #file: string;
  readonly #random: (bytes: number) => Uint8Array;
  #kept: Kept;

  /** Throws `file-not-readable` or `input-shape` where a file is there and is none of ours. */
  constructor(folder: string, random: (bytes: number) => Uint8Array) {
    this.#file = join(folder, 'access.json');
    this.#random = random;
    this.#kept = keptOf(this.#file);
  }

  get list(): readonly KeptToken[] {
    return this.#kept.tokens;
  }

  find(token: string): KeptToken | undefined {
    const sha256 = digestOf(token);
    return this.#kept.tokens.find((one) => one.sha256 === sha256);
  }

  /** A new token, on disk by its digest when this returns it. Throws `access-full`. */
  add(role: AdmittedRole, name: string, admitted: string): { token: string; sha256: string } {
    const { tokens } = this.#kept;
    if (tokens.length >= MOST_TOKENS)
      throw new Fault('access-full', 'tokens', `${MOST_TOKENS} were given; withdraw some`);
    const token = base64UrlOf(this.#random(TOKEN_BYTES));
    const sha256 = digestOf(token);
    this.#replace({ ...this.#kept, tokens: [...tokens, { sha256, role, name, admitted }] });
    return { token, sha256 };
  }

  withdraw(sha256: string): void {
    const tokens = this.#kept.tokens.filter((one) => one.sha256 !== sha256);
    this.#replace({ ...this.#kept, tokens });
  }

  /**
   * Keeps the key a station shows at first and holds it to it from then on. Throws
   * `station-not-the-one`: another key is another station, whatever it calls itself.
   */
  holdStation(station: string, publicKey: string): void {
    const { stations } = this.#kept;
    const known = stations.find((one) => one.station === station);
    if (known?.publicKey === publicKey) return;
    if (known !== undefined)
      throw new Fault('station-not-the-one', station, 'its key is not the one it first came with');
    if (stations.length >= MOST_TOKENS)
      throw new Fault('access-full', 'stations', `${MOST_TOKENS} were here`);
    this.#replace({ ...this.#kept, stations: [...stations, { station, publicKey }] });
  }

  #replace(kept: Kept): void {
    writeOwnFile(this.#file, `${JSON.stringify(kept, null, 1)}\n`);
    this.#kept = kept;
  }
}

function digestOf(token: string): string {
  return nodeSha256Hex(utf8FromText(token));
}

function keptOf(file: string): Kept {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return { tokens: [], stations: [] };
    throw new Fault('file-not-readable', file, (error as Error).message);
  }
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    throw new Fault('input-not-json', file, (error as Error).message);
  }
  const checked = kept.safeParse(json);
  if (!checked.success)
    throw new Fault('input-shape', file, checked.error.issues[0]?.message ?? 'not of its form');
  return checked.data;
}
