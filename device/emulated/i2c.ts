import type { BusFault } from './rig-types.ts';
import type { TwiBus } from './twi.ts';

/** A chip at register level. Times are seconds of the simulated world. */
export interface I2cChip {
  readonly address: number;
  /** Addressed after a start; false: it does not acknowledge. */
  begin(write: boolean, timeS: number): boolean;
  /** A byte from the master; false: not acknowledged. */
  write(byte: number, timeS: number): boolean;
  read(timeS: number): number;
  /** Stop, or a repeated start. */
  end(timeS: number): void;
  /** Supply comes (back): all registers as after power-up. */
  powerUp(timeS: number): void;
  /** Finishes what has been going on inside until this time; called at least every half second. */
  settle(timeS: number): void;
}

/** Nobody drives an idle line: it reads high. */
const NOBODY = 0xff;

/** The wires between master and chips, and what can be wrong with them. */
export class I2cBus implements TwiBus {
  readonly #chips = new Map<number, I2cChip>();
  readonly #timeS: () => number;
  #fault: BusFault = { kind: 'none' };
  #pulsesLeft = 0;
  #active: I2cChip | undefined;
  #firstWritten: number | undefined;
  /** What each chip was last written first: the register it is read from. */
  readonly #registers = new Map<number, number>();
  #readIndex = 0;
  /** Bytes given last, by address and register: what a stuck chip repeats. */
  readonly #given = new Map<number, number[]>();
  /** Told when a line's level may have changed. */
  onLines: () => void = () => undefined;

  constructor(chips: readonly I2cChip[], timeS: () => number) {
    for (const chip of chips) {
      if (this.#chips.has(chip.address)) {
        throw new RangeError(`two chips have the address 0x${chip.address.toString(16)}`);
      }
      this.#chips.set(chip.address, chip);
    }
    this.#timeS = timeS;
  }

  disturb(fault: BusFault): void {
    this.#fault = fault;
    this.#pulsesLeft = fault.kind === 'data-held' ? fault.pulses : 0;
    this.onLines();
  }

  get dataHeld(): boolean {
    return this.#pulsesLeft > 0;
  }

  get clockHeld(): boolean {
    return this.#fault.kind === 'clock-held';
  }

  get free(): boolean {
    return !this.dataHeld && !this.clockHeld;
  }

  /** One clock pulse given by hand, which brings a chip stuck in a byte nearer to its end. */
  clockPulse(): void {
    if (this.#pulsesLeft === 0 || this.clockHeld) return;
    this.#pulsesLeft -= 1;
    if (this.#pulsesLeft === 0) this.onLines();
  }

  start(): void {
    this.#endActive();
  }

  address(address: number, write: boolean): boolean {
    const chip = this.#chips.get(address);
    const fault = this.#fault;
    if (chip === undefined || (fault.kind === 'no-answer' && fault.address === address)) {
      return false;
    }
    if (!chip.begin(write, this.#timeS())) return false;
    this.#active = chip;
    this.#firstWritten = undefined;
    this.#readIndex = 0;
    return true;
  }

  write(byte: number): boolean {
    if (this.#active === undefined) return false;
    if (this.#firstWritten === undefined) {
      this.#firstWritten = byte;
      this.#registers.set(this.#active.address, byte);
    }
    return this.#active.write(byte, this.#timeS());
  }

  read(): number {
    const chip = this.#active;
    if (chip === undefined) return NOBODY;
    const fresh = chip.read(this.#timeS());
    const key = chip.address * 256 + (this.#registers.get(chip.address) ?? 0);
    const given = this.#given.get(key) ?? [];
    this.#given.set(key, given);
    const index = this.#readIndex++;
    const stuck = this.#fault.kind === 'stuck-value' && this.#fault.address === chip.address;
    if (!stuck || given[index] === undefined) given[index] = fresh;
    return given[index];
  }

  stop(): void {
    this.#endActive();
  }

  /** The master is reset: no chip is in the middle of anything. */
  abandon(): void {
    this.#active = undefined;
  }

  powerUp(): void {
    for (const chip of this.#chips.values()) chip.powerUp(this.#timeS());
  }

  settle(): void {
    for (const chip of this.#chips.values()) chip.settle(this.#timeS());
  }

  #endActive(): void {
    this.#active?.end(this.#timeS());
    this.#active = undefined;
  }
}
