import type { EEPROMBackend } from 'avr8js';

/** EEPROM of an ATmega328P (data sheet, "Memories"). */
export const EEPROM_BYTES = 1024;

/** The board's memory without power: given at the start, and handed back by its keeper. */
export class Eeprom implements EEPROMBackend {
  readonly #memory: Uint8Array;
  #changes = 0;

  /** `image`: from an earlier run; without one the board is factory new (all bytes 0xFF). */
  constructor(image?: Uint8Array) {
    if (image !== undefined && image.length !== EEPROM_BYTES) {
      throw new RangeError(`an EEPROM image has ${EEPROM_BYTES} bytes, not ${image.length}`);
    }
    this.#memory = new Uint8Array(EEPROM_BYTES).fill(0xff);
    if (image !== undefined) this.#memory.set(image);
  }

  /** Grows with each byte changed. */
  get changes(): number {
    return this.#changes;
  }

  image(): Uint8Array {
    return this.#memory.slice();
  }

  readMemory(address: number): number {
    return this.#memory[address % EEPROM_BYTES]!;
  }

  /** Programming only clears bits. */
  writeMemory(address: number, value: number): void {
    this.#set(address, this.readMemory(address) & value);
  }

  eraseMemory(address: number): void {
    this.#set(address, 0xff);
  }

  #set(address: number, value: number): void {
    if (this.#memory[address % EEPROM_BYTES] === value) return;
    this.#memory[address % EEPROM_BYTES] = value;
    this.#changes += 1;
  }
}
