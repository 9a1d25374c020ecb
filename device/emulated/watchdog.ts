import type { CPU } from 'avr8js';

/**
 * The watchdog with its own RC oscillator. The library has one, but its reset leaves old clock
 * events in place and its oscillator has no jitter; a board draws its identity from that jitter.
 * Registers: ATmega328P data sheet, section "Watchdog Timer"; 128 kHz nominal.
 */
const WDTCSR = 0x60;
const MCUSR = 0x54;
const FLAG = 0x80;
const INTERRUPT_ON = 0x40;
const CHANGE_ON = 0x10;
const RESET_ON = 0x08;
const PRESCALE_MASK = 0x27;
const CAUSED_RESET = 0x08;

const OSCILLATOR_HZ = 128_000;
const SHORTEST_CYCLES = 2048;
/** Cycles within which the second write of the timed sequence must come. */
const CHANGE_CYCLES = 4;

export class Watchdog {
  readonly #cpu: CPU;
  readonly #frequencyHz: number;
  readonly #onReset: () => void;
  readonly #jitter: () => number;
  #changeUntil = -1;
  #deadline = 0;
  #scheduled = false;

  /** `jitter` gives the oscillator's relative error of the next period, about normal, 0.001 wide. */
  constructor(
    cpu: CPU,
    settings: { frequencyHz: number; onReset: () => void; jitter: () => number },
  ) {
    this.#cpu = cpu;
    this.#frequencyHz = settings.frequencyHz;
    this.#onReset = settings.onReset;
    this.#jitter = settings.jitter;
    cpu.onWatchdogReset = () => {
      this.#restart();
    };
    cpu.writeHooks[WDTCSR] = (value, old) => {
      this.#write(value, old);
      return true;
    };
    // After a watchdog reset it runs on at its shortest time until the program stops it.
    if (cpu.data[MCUSR]! & CAUSED_RESET) {
      cpu.data[WDTCSR] = RESET_ON;
      this.#restart();
      this.#schedule();
    }
  }

  readonly #interrupt = {
    address: 0x0c,
    flagRegister: WDTCSR,
    flagMask: FLAG,
    enableRegister: WDTCSR,
    enableMask: INTERRUPT_ON,
  };

  #write(value: number, old: number): void {
    const cpu = this.#cpu;
    const guarded = RESET_ON | PRESCALE_MASK;
    let next = value;
    if (value & CHANGE_ON && value & RESET_ON) {
      this.#changeUntil = cpu.cycles + CHANGE_CYCLES;
      next = (value & ~PRESCALE_MASK) | (old & PRESCALE_MASK);
    } else if (cpu.cycles > this.#changeUntil) {
      next = (value & ~guarded) | (old & guarded);
    }
    if (cpu.data[MCUSR]! & CAUSED_RESET) next |= RESET_ON;
    cpu.data[WDTCSR] = next & ~(FLAG | CHANGE_ON);
    if (value & FLAG) cpu.clearInterrupt(this.#interrupt);
    this.#restart();
    this.#schedule();
  }

  get #running(): boolean {
    return (this.#cpu.data[WDTCSR]! & (RESET_ON | INTERRUPT_ON)) !== 0;
  }

  #restart(): void {
    const control = this.#cpu.data[WDTCSR]!;
    const prescale = SHORTEST_CYCLES << ((control & 0x07) | ((control & 0x20) >> 2));
    const seconds = (prescale / OSCILLATOR_HZ) * (1 + this.#jitter());
    this.#deadline = this.#cpu.cycles + Math.round(seconds * this.#frequencyHz);
  }

  #schedule(): void {
    if (this.#scheduled || !this.#running) return;
    this.#scheduled = true;
    this.#cpu.addClockEvent(this.#look, this.#deadline - this.#cpu.cycles);
  }

  readonly #look = (): void => {
    this.#scheduled = false;
    if (!this.#running) return;
    if (this.#cpu.cycles >= this.#deadline) this.#timedOut();
    this.#schedule();
  };

  #timedOut(): void {
    const control = this.#cpu.data[WDTCSR]!;
    if (control & INTERRUPT_ON) {
      this.#cpu.setInterruptFlag(this.#interrupt);
      if (control & RESET_ON) this.#cpu.data[WDTCSR] = control & ~INTERRUPT_ON;
    } else {
      this.#onReset();
    }
    this.#restart();
  }
}
