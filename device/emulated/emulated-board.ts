import { createRandom } from '#core/numerics/random.ts';
import { Avr, CYCLES_PER_S, FLASH_BYTES, RESET_CAUSE } from './avr.ts';
import { Eeprom } from './eeprom.ts';
import { I2cBus, type I2cChip } from './i2c.ts';
import { flashFromHex } from './intel-hex.ts';
import { type BusFault, MOST_CLOCK_ERROR_PPM } from './rig-types.ts';

/** Bytes that came out of a board in one go, and when the last of them had left it. */
export interface Outgoing {
  readonly atS: number;
  readonly bytes: Uint8Array;
}

export interface EmulatedBoardSettings {
  /** Intel HEX text of the firmware. */
  readonly hex: string;
  /** For the noise of its open inputs and its watchdog, from which it draws its identity. */
  readonly seed: number;
  /** How fast its 16 MHz clock is, parts per million, within 5000. */
  readonly clockErrorPpm: number;
  readonly chips: readonly I2cChip[];
  readonly eeprom?: Uint8Array | undefined;
}

/** A silence that ends a run of outgoing bytes, as a USB adapter's time-out does. */
const RUN_ENDS_S = 0.001;
const MOST_RUN_BYTES = 64;
/** What a board may have said before anybody takes it: over a minute of a full line. */
const MOST_OUTGOING_BYTES = 1 << 20;

/**
 * One board as a thing that is stepped: it has no clock of its own but the caller's `runTo`.
 * Times are seconds of the simulated world; the board's cycles run faster or slower by its clock
 * error. It is powered from second 0.
 */
export class EmulatedBoard {
  readonly clockErrorPpm: number;
  readonly bus: I2cBus;
  readonly #cyclesPerWorldS: number;
  readonly #avr: Avr;
  readonly #eeprom: Eeprom;
  #powered = true;
  /** World second at which cycle 0 would have been, had the board always been powered. */
  #zeroS = 0;
  #reachedS = 0;
  #receivedBytes = 0;
  #outgoing: { atS: number; bytes: number[] }[] = [];
  #outgoingBytes = 0;

  constructor(settings: EmulatedBoardSettings) {
    if (!(Math.abs(settings.clockErrorPpm) <= MOST_CLOCK_ERROR_PPM)) {
      throw new RangeError(`a clock error of ${settings.clockErrorPpm} ppm is over the limit`);
    }
    this.clockErrorPpm = settings.clockErrorPpm;
    this.#cyclesPerWorldS = CYCLES_PER_S * (1 + settings.clockErrorPpm * 1e-6);
    this.#eeprom = new Eeprom(settings.eeprom);
    this.bus = new I2cBus(settings.chips, () => this.#nowS());
    this.#avr = new Avr({
      flash: flashFromHex(settings.hex, FLASH_BYTES),
      eeprom: this.#eeprom,
      bus: this.bus,
      random: createRandom(settings.seed, 'board noise'),
      onByte: (byte) => {
        this.#say(byte);
      },
    });
  }

  /** The second the board has reached; the last instruction may reach a microsecond beyond it. */
  get reachedS(): number {
    return this.#reachedS;
  }

  /** Share of the cycles so far that were slept through. */
  get sleptShare(): number {
    return this.#avr.cycles === 0 ? 0 : this.#avr.skippedCycles / this.#avr.cycles;
  }

  /** Grows with each change of the EEPROM. */
  get eepromChanges(): number {
    return this.#eeprom.changes;
  }

  eepromImage(): Uint8Array {
    return this.#eeprom.image();
  }

  #nowS(): number {
    return this.#zeroS + this.#avr.cycles / this.#cyclesPerWorldS;
  }

  /** Lives on until this world second, in steps of at most half a second. Going back does nothing. */
  runTo(timeS: number): void {
    if (!(timeS > this.#reachedS)) return;
    if (this.#powered) {
      // Whole cycles: past 2^28 of them a fraction would put the timer's compare one count off.
      this.#avr.run(Math.ceil((timeS - this.#zeroS) * this.#cyclesPerWorldS));
      this.bus.settle();
    }
    this.#reachedS = timeS;
  }

  /** Bytes from the host, on the line from now on. Lost without power. RangeError over the limit. */
  receive(bytes: Uint8Array): void {
    if (this.#powered) this.#avr.receive(bytes);
    this.#receivedBytes += bytes.length;
  }

  /** Bytes from the host that are through with: on the line, or lost with a reset or power. */
  get heardBytes(): number {
    return this.#receivedBytes - (this.#powered ? this.#avr.waitingBytes : 0);
  }

  /** What the board has said since asked last. */
  takeOutgoing(): Outgoing[] {
    const taken = this.#outgoing.map(({ atS, bytes }) => ({ atS, bytes: Uint8Array.from(bytes) }));
    this.#outgoing = [];
    this.#outgoingBytes = 0;
    return taken;
  }

  /** The reset pin, as opening a port does. */
  reset(): void {
    if (this.#powered) this.#avr.reset(RESET_CAUSE.pin);
  }

  cutPower(): void {
    this.#powered = false;
    this.takeOutgoing();
  }

  /** Power again, from the second reached. */
  restorePower(): void {
    if (this.#powered) return;
    this.#powered = true;
    this.#zeroS = this.#reachedS - this.#avr.cycles / this.#cyclesPerWorldS;
    this.bus.powerUp();
    this.#avr.reset(RESET_CAUSE.power);
  }

  disturbBus(fault: BusFault): void {
    this.bus.disturb(fault);
  }

  /** Puts a level on a digital pin from outside; pins as printed on an Uno. */
  wire(pin: number, high: boolean): void {
    this.#avr.wire(pin, high);
  }

  /** Whether the program drives a pin high. */
  drivesHigh(pin: number): boolean {
    return this.#avr.drivesHigh(pin);
  }

  /** The program stops where it is, until the watchdog or a reset frees it. */
  hang(): void {
    this.#avr.hang();
  }

  #say(byte: number): void {
    const atS = this.#nowS();
    const last = this.#outgoing.at(-1);
    if (this.#outgoingBytes >= MOST_OUTGOING_BYTES) {
      throw new RangeError(`nobody took ${MOST_OUTGOING_BYTES} bytes a board has said`);
    }
    this.#outgoingBytes += 1;
    if (last && atS - last.atS < RUN_ENDS_S && last.bytes.length < MOST_RUN_BYTES) {
      last.bytes.push(byte);
      last.atS = atS;
    } else {
      this.#outgoing.push({ atS, bytes: [byte] });
    }
  }
}
