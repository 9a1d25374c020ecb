import type { CPU } from 'avr8js';

/**
 * The I2C master of the emulated processor. Made anew instead of correcting the library's, which
 * lets programs overwrite status bits, has no bus time, and stays busy for ever on a hung bus.
 * Registers and status codes: ATmega328P data sheet, section "2-wire Serial Interface".
 */
const TWBR = 0xb8;
const TWSR = 0xb9;
const TWDR = 0xbb;
const TWCR = 0xbc;

const DONE = 0x80;
const ACKNOWLEDGE = 0x40;
const START = 0x20;
const STOP = 0x10;
const ENABLED = 0x04;
const INTERRUPT_ON = 0x01;

const IDLE = 0xf8;
const STARTED = 0x08;
const STARTED_AGAIN = 0x10;
const ADDRESSED_WRITE = { yes: 0x18, no: 0x20 };
const WRITTEN = { yes: 0x28, no: 0x30 };
const ADDRESSED_READ = { yes: 0x40, no: 0x48 };
const READ = { yes: 0x50, no: 0x58 };
const PRESCALERS = [1, 4, 16, 64];

/** The far side of the master: what the chips and wires do. */
export interface TwiBus {
  /** False while a line is held low: nothing completes then. */
  readonly free: boolean;
  start(): void;
  /** Whether a chip acknowledges. */
  address(address: number, write: boolean): boolean;
  write(byte: number): boolean;
  read(): number;
  stop(): void;
}

type Operation = 'none' | 'start' | 'stop' | 'stop-start' | 'address' | 'write' | 'read';

export class Twi {
  readonly #cpu: CPU;
  readonly #bus: TwiBus;
  #operation: Operation = 'none';
  #status = IDLE;

  constructor(cpu: CPU, bus: TwiBus) {
    this.#cpu = cpu;
    this.#bus = bus;
    cpu.data[TWSR] = IDLE;
    cpu.data[TWDR] = 0xff;
    cpu.writeHooks[TWSR] = (value) => {
      cpu.data[TWSR] = this.#status | (value & 0x03);
      return true;
    };
    cpu.writeHooks[TWCR] = (value, old) => {
      this.#control(value, old);
      return true;
    };
  }

  get enabled(): boolean {
    return (this.#cpu.data[TWCR]! & ENABLED) !== 0;
  }

  /** The flag stays until the program clears it, so the interrupt comes again until then. */
  readonly #interrupt = {
    address: 0x30,
    flagRegister: TWCR,
    flagMask: DONE,
    enableRegister: TWCR,
    enableMask: INTERRUPT_ON,
    constant: true,
  };

  #control(value: number, old: number): void {
    const cpu = this.#cpu;
    cpu.data[TWCR] = (value & ~DONE) | (old & DONE);
    if (!(value & ENABLED)) {
      this.#abandon();
      return;
    }
    if (value & DONE) cpu.clearInterrupt(this.#interrupt);
    cpu.updateInterruptEnable(this.#interrupt, value);
    if (value & DONE && this.#operation === 'none') this.#begin(value);
  }

  /** Switching the master off lets go of the bus, whatever was under way. */
  #abandon(): void {
    const cpu = this.#cpu;
    if (this.#operation !== 'none') cpu.clearClockEvent(this.#complete);
    this.#operation = 'none';
    cpu.data[TWCR] = cpu.data[TWCR]! & ~(START | STOP);
    cpu.clearInterrupt(this.#interrupt);
    this.#setStatus(IDLE);
  }

  #begin(control: number): void {
    this.#operation = this.#asked(control);
    if (this.#operation === 'none') return;
    const byteLong = ['address', 'write', 'read'].includes(this.#operation);
    this.#cpu.addClockEvent(this.#complete, this.#cyclesPerBit() * (byteLong ? 9 : 1));
  }

  #asked(control: number): Operation {
    if (control & STOP) return control & START ? 'stop-start' : 'stop';
    if (control & START) return 'start';
    switch (this.#status) {
      case STARTED:
      case STARTED_AGAIN:
        return 'address';
      case ADDRESSED_WRITE.yes:
      case WRITTEN.yes:
        return 'write';
      case ADDRESSED_READ.yes:
      case READ.yes:
        return 'read';
      default:
        return 'none';
    }
  }

  #cyclesPerBit(): number {
    const { data } = this.#cpu;
    return 16 + 2 * data[TWBR]! * PRESCALERS[data[TWSR]! & 0x03]!;
  }

  readonly #complete = (): void => {
    // A held line stretches the operation without end; only switching off gets out of it.
    if (!this.#bus.free) return;
    const operation = this.#operation;
    this.#operation = 'none';
    switch (operation) {
      case 'start':
        this.#started();
        break;
      case 'stop':
        this.#stopped();
        break;
      case 'stop-start':
        this.#stopped();
        this.#operation = 'start';
        this.#cpu.addClockEvent(this.#complete, this.#cyclesPerBit());
        break;
      case 'address':
        this.#addressed();
        break;
      case 'write':
        this.#finish(this.#bus.write(this.#cpu.data[TWDR]!) ? WRITTEN.yes : WRITTEN.no);
        break;
      case 'read':
        this.#cpu.data[TWDR] = this.#bus.read();
        this.#finish(this.#cpu.data[TWCR]! & ACKNOWLEDGE ? READ.yes : READ.no);
        break;
    }
  };

  #started(): void {
    this.#bus.start();
    this.#finish(this.#status === IDLE ? STARTED : STARTED_AGAIN);
  }

  #stopped(): void {
    this.#bus.stop();
    this.#cpu.data[TWCR] = this.#cpu.data[TWCR]! & ~STOP;
    this.#setStatus(IDLE);
  }

  #addressed(): void {
    const byte = this.#cpu.data[TWDR]!;
    const write = (byte & 1) === 0;
    const answered = this.#bus.address(byte >> 1, write);
    const codes = write ? ADDRESSED_WRITE : ADDRESSED_READ;
    this.#finish(answered ? codes.yes : codes.no);
  }

  #setStatus(status: number): void {
    this.#status = status;
    this.#cpu.data[TWSR] = status | (this.#cpu.data[TWSR]! & 0x03);
  }

  #finish(status: number): void {
    this.#setStatus(status);
    this.#cpu.setInterruptFlag(this.#interrupt);
  }
}
