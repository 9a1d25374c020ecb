import { conversionS } from '#core/part/ads1115.ts';
import { convertedCounts } from '../elements/conversion.ts';
import type { VoltageElement } from '../elements/element.ts';
import type { I2cChip } from '../i2c.ts';

/**
 * TI ADS1115 at register level: TI data sheet SBAS444 (fields as in the Linux driver ti-ads1015;
 * what a write during a conversion does: *from memory* of the sheet). The comparator is not
 * modelled: its thresholds only keep what is written.
 */
const CONVERSION = 0;
const CONFIG = 1;
const POWER_UP = [0x0000, 0x8583, 0x8000, 0x7fff] as const;

const OS = 0x8000;
const SINGLE_SHOT = 0x0100;

/** MUX field: positive and negative input, -1 for ground. */
const MUX = [
  [0, 1],
  [0, 3],
  [1, 3],
  [2, 3],
  [0, -1],
  [1, -1],
  [2, -1],
  [3, -1],
] as const;

interface Conversion {
  readonly startS: number;
  readonly config: number;
}

const lastsS = (config: number): number => conversionS((config >> 5) & 0x07);

export class Ads1115 implements I2cChip {
  readonly address: 0x48 | 0x49 | 0x4a | 0x4b;
  readonly #element: VoltageElement;
  readonly #wiredInputs: readonly number[];
  readonly #registers = new Uint16Array(POWER_UP);
  #pointer = CONVERSION;
  /** Bytes of the write under way: pointer, high, low. */
  #written: number[] = [];
  #highRead = false;
  #word = 0;
  #running: Conversion | undefined;

  /** Inputs that are not wired stand at ground. */
  constructor(
    address: 0x48 | 0x49 | 0x4a | 0x4b,
    element: VoltageElement,
    wiredInputs: readonly number[] = [0, 1],
  ) {
    this.address = address;
    this.#element = element;
    this.#wiredInputs = wiredInputs;
  }

  begin(write: boolean, timeS: number): boolean {
    this.settle(timeS);
    if (write) this.#written = [];
    this.#highRead = false;
    return true;
  }

  write(byte: number, timeS: number): boolean {
    this.#written.push(byte);
    const [pointer = 0, high = 0, low = 0] = this.#written;
    this.#pointer = pointer & 0x03;
    if (this.#written.length === 3 && this.#pointer !== CONVERSION) {
      this.#set((high << 8) | low, timeS);
    }
    return true;
  }

  /** High byte, low byte, and so on; the word is taken when its high byte is read. */
  read(timeS: number): number {
    this.settle(timeS);
    this.#highRead = !this.#highRead;
    if (!this.#highRead) return this.#word & 0xff;
    this.#word = this.#registers[this.#pointer]!;
    if (this.#pointer === CONFIG) {
      this.#word = (this.#word & ~OS) | (this.#running === undefined ? OS : 0);
    }
    return this.#word >> 8;
  }

  end(): void {
    this.#written = [];
  }

  powerUp(): void {
    this.#registers.set(POWER_UP);
    this.#pointer = CONVERSION;
    this.#running = undefined;
  }

  /** Takes the newest result that is done; in continuous mode the next has begun at its end. */
  settle(timeS: number): void {
    let running = this.#running;
    if (running === undefined || timeS < running.startS + lastsS(running.config)) return;
    const config = this.#registers[CONFIG]!;
    this.#convert(running);
    const endS = running.startS + lastsS(running.config);
    if (config & SINGLE_SHOT) {
      this.#running = undefined;
      return;
    }
    const done = Math.floor((timeS - endS) / lastsS(config));
    running = { startS: endS + done * lastsS(config), config };
    if (done > 0) this.#convert({ startS: running.startS - lastsS(config), config });
    this.#running = running;
  }

  #set(word: number, timeS: number): void {
    if (this.#pointer !== CONFIG) {
      this.#registers[this.#pointer] = word;
      return;
    }
    this.#registers[CONFIG] = word & ~OS;
    // A conversion under way ends as it began, and a start during it has no effect.
    if (this.#running !== undefined) return;
    if (!(word & SINGLE_SHOT) || word & OS) this.#running = { startS: timeS, config: word & ~OS };
  }

  #convert({ startS, config }: Conversion): void {
    const [plus, minus] = MUX[(config >> 12) & 0x07]!;
    const volts = (input: number, timeS: number): number =>
      this.#wiredInputs.includes(input) ? this.#element.volts(input, timeS) : 0;
    const difference: VoltageElement = {
      volts: (_, timeS) => volts(plus, timeS) - volts(minus, timeS),
    };
    const pgaField = (config >> 9) & 0x07;
    this.#registers[CONVERSION] =
      convertedCounts(difference, 0, { startS, lastsS: lastsS(config), pgaField }) & 0xffff;
  }
}
