import type { CPU } from 'avr8js';

/**
 * Timers 0 and 1 in the two modes our firmware uses: running freely, and clearing on compare A.
 * The library's own timer wakes at every count (each half microsecond); this one asks the
 * clock only for the moments at which an enabled interrupt is due, which lets a sleeping board be
 * skipped over. A flag whose interrupt is off is not kept.
 * Registers: ATmega328P data sheet, sections "8-bit Timer/Counter0" and "16-bit Timer/Counter1".
 */
export interface TimerRegisters {
  readonly bits: 8 | 16;
  readonly TCCRA: number;
  readonly TCCRB: number;
  readonly TCNT: number;
  readonly OCRA: number;
  readonly OCRB: number;
  readonly TIMSK: number;
  readonly TIFR: number;
  readonly vectors: {
    readonly overflow: number;
    readonly compareA: number;
    readonly compareB: number;
  };
  /** Whether the control registers ask for "clear on compare A". */
  readonly clearsOnCompare: (controlA: number, controlB: number) => boolean;
}

export const TIMER_0: TimerRegisters = {
  bits: 8,
  TCCRA: 0x44,
  TCCRB: 0x45,
  TCNT: 0x46,
  OCRA: 0x47,
  OCRB: 0x48,
  TIMSK: 0x6e,
  TIFR: 0x35,
  vectors: { overflow: 0x20, compareA: 0x1c, compareB: 0x1e },
  clearsOnCompare: (controlA) => (controlA & 0x03) === 0x02,
};

export const TIMER_1: TimerRegisters = {
  bits: 16,
  TCCRA: 0x80,
  TCCRB: 0x81,
  TCNT: 0x84,
  OCRA: 0x88,
  OCRB: 0x8a,
  TIMSK: 0x6f,
  TIFR: 0x36,
  vectors: { overflow: 0x1a, compareA: 0x16, compareB: 0x18 },
  clearsOnCompare: (_, controlB) => (controlB & 0x18) === 0x08,
};

const OVERFLOW = 1;
const COMPARE_A = 2;
const COMPARE_B = 4;
/** Clock select bits 0 to 5; 6 and 7 (outside clock) count nothing here. */
const DIVIDERS = [0, 1, 8, 64, 256, 1024, 0, 0];

/** Attaches a timer to the processor. A fresh processor after each reset gets fresh timers. */
export class LazyTimer {
  readonly #cpu: CPU;
  readonly #registers: TimerRegisters;
  readonly #most: number;
  #divider = 0;
  #top: number;
  /** Cycle at which the counter stood at 0, or the counter itself while it stands still. */
  #zeroCycle = 0;
  #standing = 0;
  #compareA = 0;
  #compareB = 0;
  #highByte = 0;
  #due = 0;
  #scheduled = false;

  constructor(cpu: CPU, registers: TimerRegisters) {
    this.#cpu = cpu;
    this.#registers = registers;
    this.#most = registers.bits === 16 ? 0xffff : 0xff;
    this.#top = this.#most;
    this.#hookCounter();
    this.#hookCompare(registers.OCRA, (count) => {
      this.#restart(() => {
        this.#compareA = count;
      });
    });
    this.#hookCompare(registers.OCRB, (count) => {
      this.#compareB = count;
      this.#schedule();
    });
    this.#hookControl();
    this.#hookInterrupts();
  }

  #count(): number {
    if (this.#divider === 0) return this.#standing;
    const passed = Math.floor((this.#cpu.cycles - this.#zeroCycle) / this.#divider);
    return passed % (this.#top + 1);
  }

  #setCount(count: number): void {
    this.#standing = count;
    this.#zeroCycle = this.#cpu.cycles - count * this.#divider;
  }

  /** Changes divider, mode or top without losing the count. */
  #restart(change: () => void): void {
    const count = this.#count();
    change();
    const { TCCRA, TCCRB, clearsOnCompare } = this.#registers;
    const { data } = this.#cpu;
    const clears = clearsOnCompare(data[TCCRA]!, data[TCCRB]!);
    const top = clears ? this.#compareA : this.#most;
    const divider = DIVIDERS[data[TCCRB]! & 0x07]!;
    if (top !== this.#top || divider !== this.#divider) {
      this.#top = top;
      this.#divider = divider;
      this.#setCount(count);
    }
    this.#schedule();
  }

  #hookCounter(): void {
    const { TCNT, bits } = this.#registers;
    const { readHooks, writeHooks } = this.#cpu;
    readHooks[TCNT] = () => {
      const count = this.#count();
      this.#highByte = count >> 8;
      return count & 0xff;
    };
    writeHooks[TCNT] = (value) => {
      this.#setCount(bits === 16 ? (this.#highByte << 8) | value : value);
      this.#schedule();
      return true;
    };
    if (bits === 8) return;
    // Both bytes of a 16-bit register go through one temporary byte: high first when writing,
    // low first when reading.
    readHooks[TCNT + 1] = () => this.#highByte;
    writeHooks[TCNT + 1] = (value) => {
      this.#highByte = value;
      return true;
    };
  }

  #hookCompare(address: number, set: (count: number) => void): void {
    const { writeHooks, data } = this.#cpu;
    const wide = this.#registers.bits === 16;
    writeHooks[address] = (value) => {
      data[address] = value;
      if (wide) data[address + 1] = this.#highByte;
      set(wide ? (this.#highByte << 8) | value : value);
      return true;
    };
    if (!wide) return;
    writeHooks[address + 1] = (value) => {
      this.#highByte = value;
      return true;
    };
  }

  #hookControl(): void {
    const { writeHooks, data } = this.#cpu;
    for (const address of [this.#registers.TCCRA, this.#registers.TCCRB]) {
      writeHooks[address] = (value) => {
        this.#restart(() => {
          data[address] = value;
        });
        return true;
      };
    }
  }

  #hookInterrupts(): void {
    const { TIMSK, TIFR } = this.#registers;
    const cpu = this.#cpu;
    cpu.writeHooks[TIMSK] = (value) => {
      cpu.data[TIMSK] = value;
      for (const flag of [OVERFLOW, COMPARE_A, COMPARE_B]) {
        cpu.updateInterruptEnable(this.#interrupt(flag), value);
      }
      this.#schedule();
      return true;
    };
    cpu.writeHooks[TIFR] = (value) => {
      for (const flag of [OVERFLOW, COMPARE_A, COMPARE_B]) {
        if (value & flag) cpu.clearInterrupt(this.#interrupt(flag));
      }
      return true;
    };
  }

  #interrupt(flag: number) {
    const { vectors, TIFR, TIMSK } = this.#registers;
    const address =
      flag === OVERFLOW
        ? vectors.overflow
        : flag === COMPARE_A
          ? vectors.compareA
          : vectors.compareB;
    return {
      address,
      flagRegister: TIFR,
      flagMask: flag,
      enableRegister: TIMSK,
      enableMask: flag,
    };
  }

  /** Cycles until the counter next becomes `count`. */
  #cyclesUntil(count: number): number {
    const round = (this.#top + 1) * this.#divider;
    const phase = (this.#cpu.cycles - this.#zeroCycle) % round;
    const ahead = count * this.#divider - phase;
    return ahead > 0 ? ahead : ahead + round;
  }

  readonly #fire = (): void => {
    const due = this.#due;
    this.#scheduled = false;
    for (const flag of [OVERFLOW, COMPARE_A, COMPARE_B]) {
      if (due & flag) this.#cpu.setInterruptFlag(this.#interrupt(flag));
    }
    this.#schedule();
  };

  #schedule(): void {
    if (this.#scheduled) this.#cpu.clearClockEvent(this.#fire);
    this.#scheduled = false;
    const enabled = this.#cpu.data[this.#registers.TIMSK]!;
    if (this.#divider === 0 || (enabled & 7) === 0) return;
    let soonest = Number.POSITIVE_INFINITY;
    const ask = (flag: number, count: number): void => {
      if (!(enabled & flag) || count > this.#top) return;
      const ahead = this.#cyclesUntil(count);
      if (ahead < soonest) this.#due = 0;
      if (ahead > soonest) return;
      soonest = ahead;
      this.#due |= flag;
    };
    if (this.#top === this.#most) ask(OVERFLOW, 0);
    ask(COMPARE_A, this.#compareA);
    ask(COMPARE_B, this.#compareB);
    if (soonest === Number.POSITIVE_INFINITY) return;
    this.#scheduled = true;
    this.#cpu.addClockEvent(this.#fire, soonest);
  }
}
