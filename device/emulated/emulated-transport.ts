import { EventEmitter } from 'node:events';
import type { Transport } from './rig-types.ts';

/** What a transport does at its board's end. */
export interface FarEnd {
  /** Bytes for the board. */
  receive(bytes: Uint8Array): void;
  /** The near end has closed. */
  closed(): void;
}

/**
 * The host's end of an emulated board's line. It behaves like a serialport 13 port as far as
 * firmata-io, johnny-five and our own code look: 'open' comes after the caller has had the
 * object; an unwanted end is a 'close' with an Error that is `disconnected`; a closed one is
 * never opened again.
 */
export class EmulatedTransport extends EventEmitter implements Transport {
  #far: FarEnd | undefined;
  #state: 'opening' | 'open' | 'closed' = 'opening';
  /** What the board said before 'open' was told; a real port keeps it, too. */
  readonly #early: Uint8Array[] = [];

  constructor(far: FarEnd) {
    super();
    this.#far = far;
    setImmediate(() => {
      if (this.#state !== 'opening') return;
      this.#state = 'open';
      this.emit('open');
      for (const bytes of this.#early.splice(0)) this.deliver(bytes);
    });
  }

  /** One that cannot be opened: 'error' comes in its place. */
  static refused(why: string): EmulatedTransport {
    const transport = new EmulatedTransport({ receive: () => undefined, closed: () => undefined });
    transport.#state = 'closed';
    setImmediate(() => {
      transport.emit('error', new Error(why));
    });
    return transport;
  }

  get isOpen(): boolean {
    return this.#state === 'open';
  }

  write(bytes: Uint8Array | readonly number[], done?: (error?: Error | null) => void): boolean {
    if (this.#state !== 'open') {
      this.#fail(new Error('Port is not open'), done);
      return false;
    }
    try {
      this.#far?.receive(Uint8Array.from(bytes));
    } catch (error) {
      this.#fail(error instanceof Error ? error : new Error(String(error)), done);
      return false;
    }
    if (done) setImmediate(done, null);
    return true;
  }

  close(done?: (error?: Error | null) => void): void {
    if (this.#state === 'closed') {
      if (done) setImmediate(done, new Error('Port is not open'));
      return;
    }
    this.#end(done);
  }

  /** Bytes from the board. */
  deliver(bytes: Uint8Array): void {
    if (this.#state === 'open') this.emit('data', Buffer.from(bytes));
    else if (this.#state === 'opening') this.#early.push(bytes);
  }

  /** The cable was pulled. */
  disconnect(): void {
    if (this.#state === 'closed') return;
    this.#end(undefined, Object.assign(new Error('device unplugged'), { disconnected: true }));
  }

  #end(done: ((error?: Error | null) => void) | undefined, error?: Error): void {
    this.#state = 'closed';
    const far = this.#far;
    this.#far = undefined;
    far?.closed();
    setImmediate(() => {
      this.emit('close', error);
      done?.(null);
    });
  }

  #fail(error: Error, done: ((error?: Error | null) => void) | undefined): void {
    setImmediate(() => {
      if (done) done(error);
      else this.emit('error', error);
    });
  }
}
