import { Fault } from '#core/fault/fault.ts';
import type { Clock } from '#core/time/clock.ts';
import type { Transport } from '../transport.ts';
import { type ModbusRequest, registersOf, replyLength, requestBytes } from './modbus-frame.ts';

/** What came, and when the instrument may have measured it: half way between request and answer. */
export interface ModbusAnswer {
  readonly registers: readonly number[];
  readonly atS: number;
}

/** Bytes that no request waits for are kept no longer than this many. */
const MOST_BYTES = 512;
/** A start bit, eight of the byte, parity or a second stop bit, and a stop bit. */
const BITS_A_BYTE = 11;
/** Silence that parts two messages: 3.5 bytes, 1.75 ms from 19200 baud on (*from memory*). */
const SILENT_BYTES = 3.5;
const LEAST_SILENCE_S = 0.00175;

/**
 * Asks one question after another over a serial line and ends each within its deadline. What
 * arrives unasked is thrown away; after a question without a good answer the line is left alone for
 * a deadline more, since a late answer could be taken for that to the next question: nothing in
 * a Modbus answer says what was asked.
 */
export class ModbusLine {
  readonly #transport: Transport;
  readonly #clock: Clock;
  readonly #where: string;
  readonly #deadlineS: number;
  readonly #byteS: number;
  #got: number[] = [];
  #heard: (() => void) | null = null;
  #before: Promise<unknown> = Promise.resolve();

  /** @param clock of the machine, seconds */
  constructor(
    transport: Transport,
    options: { clock: Clock; where: string; deadlineS: number; baudRate: number },
  ) {
    this.#transport = transport;
    this.#clock = options.clock;
    this.#where = options.where;
    this.#deadlineS = options.deadlineS;
    this.#byteS = BITS_A_BYTE / options.baudRate;
    transport.on('data', (bytes: Uint8Array) => {
      if (this.#got.length + bytes.length <= MOST_BYTES) this.#got.push(...bytes);
      this.#heard?.();
    });
  }

  /**
   * Rejects with `modbus-no-answer`, `modbus-short-reply`, `modbus-crc`, `modbus-exception` or
   * `modbus-wrong-reply`.
   */
  ask(request: ModbusRequest): Promise<ModbusAnswer> {
    const asked = this.#before.then(() => this.#ask(request));
    // The next one waits for this one's end, however it ends; who asked hears of the end itself.
    this.#before = asked.catch(() => undefined);
    return asked;
  }

  async #ask(request: ModbusRequest): Promise<ModbusAnswer> {
    const { unit, table, register, count } = request;
    const where = `${this.#where} unit ${unit} ${table} ${register}+${count}`;
    const silenceS = Math.max(LEAST_SILENCE_S, SILENT_BYTES * this.#byteS);
    await this.#hear(() => false, silenceS);
    this.#got = [];
    const bytes = requestBytes(request);
    const sentS = this.#clock.monotonicS();
    this.#transport.write(bytes);
    const lineS = (bytes.length + 5 + 2 * count) * this.#byteS;
    const isWhole = () => {
      const length = replyLength(Uint8Array.from(this.#got.slice(0, 2)), request);
      return length !== null && this.#got.length >= length;
    };
    await this.#hear(isWhole, this.#deadlineS + lineS);
    const answeredS = this.#clock.monotonicS();
    const got = Uint8Array.from(this.#got);
    try {
      if (got.length === 0) throw new Fault('modbus-no-answer', where, `${this.#deadlineS} s`);
      if (!isWhole()) {
        const found = Buffer.from(got).toString('hex');
        throw new Fault('modbus-short-reply', where, found);
      }
      const length = replyLength(got, request) ?? got.length;
      const registers = registersOf(got.subarray(0, length), request, where);
      return { registers, atS: sentS + (answeredS - sentS) / 2 };
    } catch (error) {
      const answered = error instanceof Fault && error.code === 'modbus-exception';
      if (!answered) await this.#hear(() => false, this.#deadlineS);
      throw error;
    }
  }

  /** Until what is awaited has come, or the time is over. */
  #hear(isEnough: () => boolean, seconds: number): Promise<void> {
    return new Promise((resolve) => {
      const end = () => {
        clearTimeout(timer);
        this.#heard = null;
        resolve();
      };
      const timer = setTimeout(end, seconds * 1000);
      this.#heard = () => {
        if (isEnough()) end();
      };
    });
  }
}
