import {
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  randomBytes,
  sign,
} from 'node:crypto';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { Fault } from '#core/fault/fault.ts';
import { makeDataFolder, writeWhole } from './data-folder.ts';

const stored = z.strictObject({
  v: z.literal(1),
  station: z.string().regex(/^[0-9a-f]{12}$/),
  /** How many streams this station has opened; the next one is numbered with it. */
  streams: z.number().int().nonnegative().max(999_999_999),
  /** PKCS #8, base64. Never leaves this file. */
  privateKey: z.string().max(200),
});

/**
 * Who this station is: a random id and an Ed25519 key, made at the first start, and a counter of
 * streams that never goes back, since (stream, number) must name one item for ever.
 */
export class StationIdentity {
  readonly station: string;
  /** Raw Ed25519 public key, base64url. */
  readonly publicKey: string;
  readonly #file: string;
  readonly #privateKey: string;
  #streams: number;
  #writing: Promise<void> = Promise.resolve();

  private constructor(file: string, kept: z.infer<typeof stored>) {
    this.#file = file;
    this.station = kept.station;
    this.#privateKey = kept.privateKey;
    this.#streams = kept.streams;
    const der = Buffer.from(kept.privateKey, 'base64');
    const key = createPublicKey(createPrivateKey({ key: der, format: 'der', type: 'pkcs8' }));
    const { x } = key.export({ format: 'jwk' });
    if (x === undefined) throw new Fault('station-folder', file, 'the key is not Ed25519');
    this.publicKey = x;
  }

  /**
   * Reads the identity, or makes one where there is none yet. Throws `station-folder` when what is
   * there cannot be read: guessing a counter could name two items alike.
   */
  static async open(folder: string): Promise<StationIdentity> {
    await makeDataFolder(folder);
    const file = path.join(folder, 'station.json');
    const text = await readText(file);
    if (text === null) {
      const { privateKey } = generateKeyPairSync('ed25519');
      const fresh = {
        v: 1 as const,
        station: randomBytes(6).toString('hex'),
        streams: 0,
        privateKey: privateKey.export({ format: 'der', type: 'pkcs8' }).toString('base64'),
      };
      await writeWhole(file, JSON.stringify(fresh));
      return new StationIdentity(file, fresh);
    }
    try {
      return new StationIdentity(file, stored.parse(JSON.parse(text)));
    } catch {
      throw new Fault(
        'station-folder',
        file,
        'not readable; move the folder away to begin as a new station',
      );
    }
  }

  /** An Ed25519 signature by this station's key, base64url. */
  sign(bytes: Uint8Array): string {
    const der = Buffer.from(this.#privateKey, 'base64');
    const key = createPrivateKey({ key: der, format: 'der', type: 'pkcs8' });
    return sign(null, bytes, key).toString('base64url');
  }

  /** The name of a new stream of a board; its number is on disk before it resolves. */
  async nextStream(board: string): Promise<string> {
    const counter = this.#streams;
    this.#streams += 1;
    const content = JSON.stringify({
      v: 1,
      station: this.station,
      streams: this.#streams,
      privateKey: this.#privateKey,
    });
    const written = this.#writing.then(() => writeWhole(this.#file, content));
    this.#writing = written.catch(() => undefined);
    await written;
    return `${this.station}/${board}/${counter}`;
  }
}

async function readText(file: string): Promise<string | null> {
  try {
    return await readFile(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw new Fault('station-folder', file, (error as Error).message);
  }
}
