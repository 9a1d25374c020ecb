import { CPU } from 'avr8js';

/** A processor without a program, to try its periphery on: time passes by hand. */
export class BareProcessor {
  readonly cpu = new CPU(new Uint16Array(1024), 2048);

  /** Lets cycles pass, every event on its cycle. Interrupts stay pending, for they are off. */
  pass(cycles: number): void {
    const end = this.cpu.cycles + cycles;
    for (;;) {
      const event = this.cpu['nextClockEvent'] as { cycles: number } | null;
      if (event === null || event.cycles > end) break;
      this.cpu.cycles = Math.max(this.cpu.cycles, event.cycles);
      this.cpu.tick();
    }
    this.cpu.cycles = end;
  }

  write(register: number, value: number): void {
    this.cpu.writeData(register, value);
  }

  read(register: number): number {
    return this.cpu.readData(register);
  }

  /** Vector of the interrupt that would be served next, or -1. */
  get pending(): number {
    return this.cpu.nextInterrupt;
  }
}
