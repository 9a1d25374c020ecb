import { MOST_COUNTS } from '#core/part/abp2.ts';
import type { PressureElement } from '../elements/element.ts';
import type { I2cChip } from '../i2c.ts';

/**
 * Honeywell ABP2 on I2C: `AA 00 00` starts a measurement of 5 ms, a read gives status, pressure
 * and temperature of the last one (frame as in the Linux iio driver mprls0025pa and its ABP2
 * extension). What it does when asked again while busy is *from memory*: nothing.
 */
const COMMAND = [0xaa, 0, 0] as const;
const MEASURING_S = 0.005;
const POWERED = 0x40;
const BUSY = 0x20;
const SATURATED = 0x01;

export class Abp2 implements I2cChip {
  readonly address: number;
  readonly #element: PressureElement;
  #written: number[] = [];
  #startedS: number | null = null;
  #frame: readonly number[] = [0, 0, 0, 0, 0, 0];
  #status = POWERED;
  #readIndex = 0;

  constructor(address: number, element: PressureElement) {
    this.address = address;
    this.#element = element;
  }

  begin(write: boolean, timeS: number): boolean {
    this.settle(timeS);
    if (write) this.#written = [];
    this.#readIndex = 0;
    return true;
  }

  write(byte: number): boolean {
    this.#written.push(byte);
    return true;
  }

  /** Status first; past the end of the frame it begins again. */
  read(): number {
    const index = this.#readIndex++ % (this.#frame.length + 1);
    if (index === 0) return this.#status | (this.#startedS === null ? 0 : BUSY);
    return this.#frame[index - 1]!;
  }

  end(timeS: number): void {
    const isCommand =
      this.#written.length === COMMAND.length &&
      COMMAND.every((byte, k) => this.#written[k] === byte);
    if (isCommand && this.#startedS === null) this.#startedS = timeS;
    this.#written = [];
  }

  powerUp(): void {
    this.#startedS = null;
    this.#status = POWERED;
    this.#frame = [0, 0, 0, 0, 0, 0];
  }

  settle(timeS: number): void {
    if (this.#startedS === null || timeS < this.#startedS + MEASURING_S) return;
    const { pressureCounts, temperatureCounts } = this.#element.read(
      this.#startedS + MEASURING_S / 2,
    );
    this.#startedS = null;
    const isOut = pressureCounts <= 0 || pressureCounts >= MOST_COUNTS;
    this.#status = POWERED | (isOut ? SATURATED : 0);
    this.#frame = [...bytesOf(pressureCounts), ...bytesOf(temperatureCounts)];
  }
}

/** 24 bits, high byte first; the chip stops at their ends. */
function bytesOf(counts: number): number[] {
  const word = Math.min(MOST_COUNTS, Math.max(0, counts));
  return [word >> 16, (word >> 8) & 0xff, word & 0xff];
}
