import type { Firmata } from 'firmata-io';
import { Fault, type FaultCode } from '#core/fault/fault.ts';
import { addressText, type Bus } from './bus.ts';

/** A board answers in some milliseconds; a machine under load in some hundreds. */
const REPLY_WITHIN_MS = 1000;
export const MOST_READ_BYTES = 32;

/**
 * The bus through Firmata's own I2C requests. firmata-io matches replies by address and register
 * only and waits for ever, so one request is in flight at a time and its time is limited here.
 * A failed read is a string and then a reply without bytes (hardware/firmware/README.md,
 * "Firmata"; StandardFirmata 2.5.9 does the same with other words).
 */
export class FirmataBus implements Bus {
  readonly #io: Firmata;
  readonly #where: string;
  readonly #replyWithinMs: number;
  #queue: Promise<unknown> = Promise.resolve();
  #complaint = '';
  readonly #addresses = new Set<number>();

  constructor(io: Firmata, where: string, replyWithinMs = REPLY_WITHIN_MS) {
    this.#io = io;
    this.#where = where;
    this.#replyWithinMs = replyWithinMs;
    io.i2cConfig({ delay: 0 });
    io.on('string', (text: unknown) => {
      this.#complaint = String(text).slice(0, 100);
    });
  }

  read(address: number, register: number | null, count: number): Promise<Uint8Array> {
    if (!(count >= 1 && count <= MOST_READ_BYTES)) {
      return Promise.reject(new RangeError(`${count} bytes in one read`));
    }
    return this.#afterOthers(() => this.#readNow(address, register, count));
  }

  write(address: number, register: number, bytes: readonly number[]): Promise<void> {
    return this.#afterOthers(async () => {
      this.#keepBusBetween(address);
      this.#io.i2cWrite(address, [register, ...bytes]);
    });
  }

  #afterOthers<T>(request: () => Promise<T>): Promise<T> {
    const result = this.#queue.then(request);
    this.#queue = result.catch(() => undefined);
    return result;
  }

  /** Asks for a repeated start between register and bytes, as the chips' sheets draw their reads. */
  #keepBusBetween(address: number): void {
    if (this.#addresses.has(address)) return;
    this.#addresses.add(address);
    this.#io.i2cConfig({ delay: 0, address, settings: { stopTX: false } });
  }

  async #readNow(address: number, register: number | null, count: number): Promise<Uint8Array> {
    this.#keepBusBetween(address);
    this.#complaint = '';
    const where = `${this.#where} ${addressText(address)}`;
    // A read without a register is answered as one of register 0.
    const event = `I2C-reply-${address}-${register ?? 0}`;
    const bytes = await new Promise<number[]>((resolve, reject) => {
      const reply = (received: number[]): void => {
        clearTimeout(timer);
        resolve(received);
      };
      const timer = setTimeout(() => {
        this.#io.removeListener(event, reply);
        reject(new Fault('board-lost', where, `no reply in ${this.#replyWithinMs} ms`));
      }, this.#replyWithinMs);
      if (register === null) this.#io.i2cReadOnce(address, count, reply);
      else this.#io.i2cReadOnce(address, register, count, reply);
    });
    if (bytes.length === count) return Uint8Array.from(bytes);
    const code = faultOf(this.#complaint, bytes.length);
    throw new Fault(code, where, `${bytes.length} of ${count} bytes ${this.#complaint}`.trim());
  }
}

function faultOf(complaint: string, received: number): FaultCode {
  if (/held|limit/i.test(complaint)) return 'bus-stuck';
  return received === 0 ? 'bus-no-answer' : 'bus-short-reply';
}
