import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { Fault } from '#core/fault/fault.ts';
import {
  ACCESS_VERSION,
  type Admitted,
  type FromUnknown,
  INVITATION_CODE,
} from '#core/wire/access-message.ts';
import { writeWhole } from './data-folder.ts';

/** More receivers than one station will see; the oldest makes room. */
const MOST_RECEIVERS = 50;

const kept = z.strictObject({
  receivers: z
    .array(
      z.strictObject({
        receiver: z.string().max(300),
        token: z.string().max(100),
        /** SHA-256 of the key of its TLS certificate; null where it came without TLS. */
        pin: z.string().length(64).nullable(),
      }),
    )
    .max(MOST_RECEIVERS),
});
type KeptReceiver = z.infer<typeof kept>['receivers'][number];

export interface AccessOptions {
  readonly folder: string;
  /** Scheme, host and port of the receiver. */
  readonly receiver: string;
  /** Code of an invitation, or null. */
  readonly code: string | null;
  /** SHA-256 of the receiver's TLS key, or null. */
  readonly pin: string | null;
}

/**
 * What opens a receiver for this station: the token it was given, or else an invitation's code,
 * which is good once. What it was given it keeps beside its identity, for its owner only.
 */
export class ReceiverAccess {
  readonly #options: AccessOptions;
  readonly #file: string;
  #receivers: readonly KeptReceiver[];
  #code: string | null;

  private constructor(options: AccessOptions, file: string, receivers: readonly KeptReceiver[]) {
    this.#options = options;
    this.#file = file;
    this.#receivers = receivers;
    this.#code = options.code;
  }

  /** Throws `input-shape` for a code or pin that is none, `station-folder` for a file not readable. */
  static async open(options: AccessOptions): Promise<ReceiverAccess> {
    if (options.code !== null && !INVITATION_CODE.test(options.code))
      throw new Fault('input-shape', '--pair', 'a code has 22 letters, digits, - and _');
    if (options.pin !== null && !/^[0-9a-f]{64}$/.test(options.pin))
      throw new Fault('input-shape', '--pin', 'a pin has 64 hexadecimal digits');
    const file = path.join(options.folder, 'access.json');
    return new ReceiverAccess(options, file, await receiversIn(file));
  }

  /** The key the receiver must have; null: any that its certificate's issuer vouches for. */
  get pin(): string | null {
    return this.#options.pin ?? this.#known?.pin ?? null;
  }

  /** What to say first on a new connection; null when there is nothing that could open it. */
  firstMessage(): FromUnknown | null {
    const token = this.#known?.token;
    if (token !== undefined) return { type: 'token', version: ACCESS_VERSION, token, name: '' };
    if (this.#code === null) return null;
    return { type: 'invited', version: ACCESS_VERSION, code: this.#code, name: '' };
  }

  /** The token is on disk when this resolves. Throws `station-folder`. */
  async admitted({ token }: Admitted): Promise<void> {
    if (token === null) return;
    this.#code = null;
    const { receiver, pin } = this.#options;
    const others = this.#receivers.filter((one) => one.receiver !== receiver);
    await this.#keep([...others.slice(-(MOST_RECEIVERS - 1)), { receiver, token, pin }]);
  }

  /** A token that opens no more is forgotten only where an invitation can take its place. */
  async refused(code: string): Promise<void> {
    if (code !== 'access-unknown' || this.#code === null) return;
    const { receiver } = this.#options;
    await this.#keep(this.#receivers.filter((one) => one.receiver !== receiver));
  }

  get #known(): KeptReceiver | undefined {
    return this.#receivers.find(({ receiver }) => receiver === this.#options.receiver);
  }

  async #keep(receivers: readonly KeptReceiver[]): Promise<void> {
    this.#receivers = receivers;
    await writeWhole(this.#file, JSON.stringify({ receivers }));
  }
}

async function receiversIn(file: string): Promise<readonly KeptReceiver[]> {
  let text: string;
  try {
    text = await readFile(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
    throw new Fault('station-folder', file, (error as Error).message);
  }
  try {
    return kept.parse(JSON.parse(text)).receivers;
  } catch {
    throw new Fault('station-folder', file, 'not readable; remove it and pair again');
  }
}
