import type { CPU } from 'avr8js';

/**
 * The serial port of the emulated processor, at the pace of its own baud divisor: one byte in the
 * shift register and one waiting on the way out, two waiting on the way in, as the chip has them.
 * Made anew instead of correcting the library's, whose receiver loses a waiting byte at each write
 * of UCSR0B and has no second place in either direction.
 * Registers: ATmega328P data sheet, section "USART0".
 */
const UCSRA = 0xc0;
const UCSRB = 0xc1;
const UBRRL = 0xc4;
const UBRRH = 0xc5;
const UDR = 0xc6;

const RECEIVED = 0x80;
const SENT = 0x40;
const EMPTY = 0x20;
const OVERRUN = 0x08;
const DOUBLE_SPEED = 0x02;
const RECEIVER_ON = 0x10;
const SENDER_ON = 0x08;

/** 8N1. */
const BITS_PER_BYTE = 10;
const FIFO_BYTES = 2;
/** What a host may have written ahead of the line. */
export const MOST_WAITING_BYTES = 65_536;

const received = interrupt(0x24, RECEIVED, true);
const empty = interrupt(0x26, EMPTY, true);
const sent = interrupt(0x28, SENT, false);

/** Enable bits stand in UCSR0B at the same places as the flags in UCSR0A. */
function interrupt(address: number, mask: number, constant: boolean) {
  return {
    address,
    flagRegister: UCSRA,
    flagMask: mask,
    enableRegister: UCSRB,
    enableMask: mask,
    constant,
  };
}

export class Uart {
  readonly #cpu: CPU;
  readonly #onByte: (byte: number) => void;
  /** From the host, not yet on the line. */
  #waiting: Uint8Array[] = [];
  #waitingOffset = 0;
  #waitingBytes = 0;
  #receiving = -1;
  readonly #fifo: number[] = [];
  #sending = -1;
  #next = -1;

  /** `onByte` is told each byte at the moment its stop bit has gone out. */
  constructor(cpu: CPU, onByte: (byte: number) => void) {
    this.#cpu = cpu;
    this.#onByte = onByte;
    cpu.data[UCSRA] = EMPTY;
    this.#hookControl();
    this.#hookData();
  }

  get waitingBytes(): number {
    return this.#waitingBytes;
  }

  /** Bytes from the host; they go over the line one after the other. Throws when too many wait. */
  receive(bytes: Uint8Array): void {
    if (this.#waitingBytes + bytes.length > MOST_WAITING_BYTES) {
      throw new RangeError(`more than ${MOST_WAITING_BYTES} bytes wait for the serial line`);
    }
    if (bytes.length === 0) return;
    this.#waiting.push(bytes);
    this.#waitingBytes += bytes.length;
    this.#receiveNext();
  }

  #cyclesPerByte(): number {
    const { data } = this.#cpu;
    const divisor = ((data[UBRRH]! & 0x0f) << 8) | data[UBRRL]!;
    return (divisor + 1) * (data[UCSRA]! & DOUBLE_SPEED ? 8 : 16) * BITS_PER_BYTE;
  }

  #hookControl(): void {
    const cpu = this.#cpu;
    const { data, writeHooks } = cpu;
    writeHooks[UCSRA] = (value) => {
      data[UCSRA] = (data[UCSRA]! & (RECEIVED | SENT | EMPTY | OVERRUN)) | (value & 0x03);
      if (value & SENT) cpu.clearInterrupt(sent);
      return true;
    };
    writeHooks[UCSRB] = (value) => {
      data[UCSRB] = value;
      if (!(value & RECEIVER_ON)) {
        this.#fifo.length = 0;
        data[UCSRA] = data[UCSRA]! & ~(RECEIVED | OVERRUN);
      }
      for (const one of [received, empty, sent]) cpu.updateInterruptEnable(one, value);
      this.#receiveNext();
      return true;
    };
  }

  #hookData(): void {
    const cpu = this.#cpu;
    cpu.readHooks[UDR] = () => {
      const byte = this.#fifo.shift() ?? 0;
      cpu.data[UCSRA] = cpu.data[UCSRA]! & ~OVERRUN;
      if (this.#fifo.length === 0) cpu.clearInterrupt(received);
      return byte;
    };
    cpu.writeHooks[UDR] = (value) => {
      if (!(cpu.data[UCSRB]! & SENDER_ON)) return true;
      if (this.#sending < 0) {
        this.#sending = value;
        cpu.addClockEvent(this.#sentByte, this.#cyclesPerByte());
      } else if (this.#next < 0) {
        this.#next = value;
        cpu.clearInterrupt(empty);
      }
      return true;
    };
  }

  readonly #sentByte = (): void => {
    const byte = this.#sending;
    this.#sending = this.#next;
    this.#next = -1;
    if (this.#sending < 0) {
      this.#cpu.setInterruptFlag(sent);
    } else {
      this.#cpu.addClockEvent(this.#sentByte, this.#cyclesPerByte());
    }
    this.#cpu.setInterruptFlag(empty);
    this.#onByte(byte);
  };

  #receiveNext(): void {
    const first = this.#waiting[0];
    if (this.#receiving >= 0 || first === undefined) return;
    if (!(this.#cpu.data[UCSRB]! & RECEIVER_ON)) return;
    this.#receiving = first[this.#waitingOffset]!;
    this.#waitingBytes -= 1;
    this.#waitingOffset += 1;
    if (this.#waitingOffset === first.length) {
      this.#waiting.shift();
      this.#waitingOffset = 0;
    }
    this.#cpu.addClockEvent(this.#receivedByte, this.#cyclesPerByte());
  }

  readonly #receivedByte = (): void => {
    const byte = this.#receiving;
    this.#receiving = -1;
    if (this.#cpu.data[UCSRB]! & RECEIVER_ON) {
      if (this.#fifo.length < FIFO_BYTES) {
        this.#fifo.push(byte);
        this.#cpu.setInterruptFlag(received);
      } else {
        this.#cpu.data[UCSRA] = this.#cpu.data[UCSRA]! | OVERRUN;
      }
    }
    this.#receiveNext();
  };
}
