import type { Spool } from './spool.ts';

/** Bytes handed to the socket and not yet on their way: a slow link must not fill the memory. */
const MOST_QUEUED_BYTES = 1024 * 1024;
/** Bytes sent and not yet acknowledged; more than the receiver stores within some group commits. */
const MOST_UNACKNOWLEDGED_BYTES = 4 * 1024 * 1024;
/** A stream is sent again from its acknowledged item at most this often. */
const AGAIN_AFTER_MS = 1000;

/** A connection that has been welcomed. */
export interface Connection {
  readonly record: string;
  /** Streams the record has, with the last number on its disk. */
  readonly acknowledged: ReadonlyMap<string, number>;
  send(bytes: Buffer): void;
  queuedBytes(): number;
}

interface Sending {
  next: number;
  acknowledged: number;
  /** Not for this record, or refused by it. */
  held: boolean;
  unacknowledged: { number: number; bytes: number }[];
  againAtMs: number;
}

/**
 * Sends what the spool holds: each stream in order, several in turn, from the item after the last
 * acknowledged one at each new connection. A stream goes into one record only; one that another
 * record has begun is kept until that record is open again.
 */
export class LinkSender {
  readonly #spool: Spool;
  readonly #nowMs: () => number;
  /** Asks whoever writes a stream to end it and to open a new one. */
  readonly #renew: (stream: string) => void;
  readonly #damaged: (error: unknown) => void;
  #connection: Connection | null = null;
  /** Counts how often the connection has changed. */
  #connections = 0;
  #sending = new Map<string, Sending>();
  #unacknowledgedBytes = 0;
  #pumping = false;

  constructor(options: {
    spool: Spool;
    nowMs: () => number;
    renew: (stream: string) => void;
    damaged: (error: unknown) => void;
  }) {
    this.#spool = options.spool;
    this.#nowMs = options.nowMs;
    this.#renew = options.renew;
    this.#damaged = options.damaged;
  }

  async connected(connection: Connection): Promise<void> {
    this.disconnected();
    const connections = this.#connections;
    for (const [stream, number] of connection.acknowledged) await this.#forget(stream, number);
    // It may have been lost, and another come, while files were deleted.
    if (connections !== this.#connections) return;
    this.#connection = connection;
    this.pump();
  }

  disconnected(): void {
    this.#connections += 1;
    this.#connection = null;
    this.#sending = new Map();
    this.#unacknowledgedBytes = 0;
  }

  /** Is there room on the line for something that is worth nothing later? */
  hasRoom(): boolean {
    return (this.#connection?.queuedBytes() ?? Number.POSITIVE_INFINITY) < MOST_QUEUED_BYTES;
  }

  /** Nothing stored is left to be acknowledged by the record now connected. */
  get done(): boolean {
    return (
      this.#connection !== null &&
      this.#spool.streams().every(({ stream, storedNumber }) => {
        const sending = this.#sending.get(stream);
        return sending?.held === true || (sending?.acknowledged ?? -1) >= storedNumber;
      })
    );
  }

  async acknowledged(stream: string, number: number): Promise<void> {
    const sending = this.#sending.get(stream);
    if (sending === undefined || number >= sending.next) return;
    sending.acknowledged = Math.max(sending.acknowledged, number);
    while ((sending.unacknowledged[0]?.number ?? Number.POSITIVE_INFINITY) <= number) {
      this.#unacknowledgedBytes -= sending.unacknowledged.shift()!.bytes;
    }
    await this.#forget(stream, number);
    this.pump();
  }

  /** The receiver did not take something: sent again, or held back. */
  refused(code: string, where: string): void {
    const named = [...this.#sending].filter(([stream]) => where.includes(stream));
    const meant = named.length > 0 ? named : [...this.#sending];
    if (code === 'stream-conflict') {
      for (const [stream, sending] of named) {
        sending.held = true;
        this.#renew(stream);
      }
    } else if (code === 'stream-gap' || code === 'stream-unknown') {
      for (const [stream, sending] of meant) this.#again(stream, sending, code);
    }
  }

  /** Sends what can be sent now. Called whenever something was stored, acknowledged or drained. */
  pump(): void {
    if (this.#pumping) return;
    this.#pumping = true;
    void this.#pumpAll()
      .catch(this.#damaged)
      .finally(() => {
        this.#pumping = false;
      });
  }

  async #pumpAll(): Promise<void> {
    for (let sentSome = true; sentSome; ) {
      sentSome = false;
      for (const { stream, storedNumber, firstNumber } of this.#spool.streams()) {
        const connection = this.#connection;
        if (connection === null || this.#isFull()) return;
        const sending = await this.#sendingOf(stream, firstNumber, connection);
        if (sending.held || sending.next > storedNumber) continue;
        const items = await this.#spool.read(stream, sending.next);
        if (connection !== this.#connection) return;
        for (const { number, bytes } of items) {
          if (number !== sending.next) break;
          if (this.#isFull()) return;
          connection.send(bytes);
          sending.next = number + 1;
          sending.unacknowledged.push({ number, bytes: bytes.length });
          this.#unacknowledgedBytes += bytes.length;
          sentSome = true;
        }
      }
    }
  }

  /** A file that cannot be deleted now stays a while longer; nothing waits for it. */
  async #forget(stream: string, number: number): Promise<void> {
    try {
      await this.#spool.acknowledge(stream, number);
    } catch (error) {
      this.#damaged(error);
    }
  }

  #isFull(): boolean {
    return !this.hasRoom() || this.#unacknowledgedBytes > MOST_UNACKNOWLEDGED_BYTES;
  }

  async #sendingOf(stream: string, firstNumber: number, connection: Connection): Promise<Sending> {
    const known = this.#sending.get(stream);
    if (known !== undefined) return known;
    const claimedBy = await this.#spool.claim(stream, connection.record);
    const acknowledged = connection.acknowledged.get(stream) ?? firstNumber - 1;
    const elsewhere = claimedBy !== connection.record;
    const sending: Sending = {
      next: acknowledged + 1,
      acknowledged,
      held: elsewhere,
      unacknowledged: [],
      againAtMs: 0,
    };
    if (connection === this.#connection) {
      this.#sending.set(stream, sending);
      if (elsewhere) this.#renew(stream);
    }
    return sending;
  }

  #again(stream: string, sending: Sending, code: string): void {
    if (this.#nowMs() < sending.againAtMs) return;
    sending.againAtMs = this.#nowMs() + AGAIN_AFTER_MS;
    const first = this.#spool.streams().find((spooled) => spooled.stream === stream)?.firstNumber;
    if (code === 'stream-unknown' && first !== 0) {
      // Its opening is gone from here: the record must have lost it. Only a new stream helps.
      sending.held = true;
      this.#renew(stream);
      return;
    }
    sending.next = code === 'stream-unknown' ? 0 : sending.acknowledged + 1;
    for (const { bytes } of sending.unacknowledged) this.#unacknowledgedBytes -= bytes;
    sending.unacknowledged = [];
    this.pump();
  }
}
