import {
  AVRADC,
  AVREEPROM,
  AVRIOPort,
  adcConfig,
  avrInstruction,
  CPU,
  eepromConfig,
  PinState,
  portBConfig,
  portCConfig,
  portDConfig,
} from 'avr8js';
import type { Random } from '#core/numerics/random.ts';
import type { Eeprom } from './eeprom.ts';
import type { I2cBus } from './i2c.ts';
import { LazyTimer, TIMER_0, TIMER_1 } from './timer.ts';
import { Twi } from './twi.ts';
import { Uart } from './uart.ts';
import { Watchdog } from './watchdog.ts';

/** ATmega328P at 16 MHz. */
export const CYCLES_PER_S = 16_000_000;
export const FLASH_BYTES = 32_768;
const SRAM_BYTES = 2048;

const SMCR = 0x53;
const MCUSR = 0x54;
const SLEEP_ENABLED = 0x01;
/** MCUSR bits: data sheet, "MCU Status Register". */
export const RESET_CAUSE = { power: 0x01, pin: 0x02, brownOut: 0x04, watchdog: 0x08 } as const;

const SLEEP = 0x9588;
const SEI = 0x9478;
const RETI = 0x9518;
/** `rjmp .-2`: a program that goes on for ever at one place. */
const HANG = 0xcfff;

const SDA_BIT = 4;
const SCL_BIT = 5;

export interface AvrParts {
  readonly flash: Uint16Array;
  readonly eeprom: Eeprom;
  readonly bus: I2cBus;
  /** Noise of the open analog inputs and of the watchdog's oscillator. */
  readonly random: Random;
  readonly onByte: (byte: number) => void;
}

/**
 * The processor with its periphery. Cycles count on through resets. What the library lacks and
 * the runner adds: SLEEP, one instruction between SEI (or RETI) and the next interrupt, and every
 * clock event that is due, not one an instruction.
 */
export class Avr {
  readonly #parts: AvrParts;
  readonly #flash: Uint16Array;
  /** Levels that wires put on pins, by the number printed on the board. */
  readonly #wires = new Map<number, boolean>();
  #cpu: CPU;
  #uart!: Uart;
  #twi!: Twi;
  #ports!: { B: AVRIOPort; C: AVRIOPort; D: AVRIOPort };
  #asleep = false;
  #watchdogFired = false;
  #hungAt = -1;
  #skippedCycles = 0;

  constructor(parts: AvrParts) {
    this.#parts = parts;
    this.#flash = parts.flash.slice();
    this.#cpu = this.#powerUp(RESET_CAUSE.power, 0);
    parts.bus.onLines = () => {
      this.#showLines();
    };
  }

  get cycles(): number {
    return this.#cpu.cycles;
  }

  /** Cycles not run one by one because the program slept. */
  get skippedCycles(): number {
    return this.#skippedCycles;
  }

  get waitingBytes(): number {
    return this.#uart.waitingBytes;
  }

  receive(bytes: Uint8Array): void {
    this.#uart.receive(bytes);
  }

  /** The reset pin, or power coming back. Everything but EEPROM begins anew. */
  reset(cause: number): void {
    this.#cpu = this.#powerUp(cause, this.#cpu.cycles);
  }

  /** Puts a level on a pin from outside; pins as printed on an Uno, A0 is 14. */
  wire(pin: number, high: boolean): void {
    this.#wires.set(pin, high);
    this.#showWire(pin, high);
  }

  /** Whether the program drives a pin high. */
  drivesHigh(pin: number): boolean {
    const { port, bit } = this.#placeOf(pin);
    return port.pinState(bit) === PinState.High;
  }

  #showWire(pin: number, high: boolean): void {
    const { port, bit } = this.#placeOf(pin);
    port.setPin(bit, high);
  }

  #placeOf(pin: number): { port: AVRIOPort; bit: number } {
    if (pin < 8) return { port: this.#ports.D, bit: pin };
    return pin < 14
      ? { port: this.#ports.B, bit: pin - 8 }
      : { port: this.#ports.C, bit: pin - 14 };
  }

  /** A test's means: the program stays where it is, as after a flipped bit, until the next reset. */
  hang(): void {
    this.#hungAt = this.#cpu.pc;
    this.#flash[this.#hungAt] = HANG;
  }

  #powerUp(cause: number, cycles: number): CPU {
    if (this.#hungAt >= 0) this.#flash[this.#hungAt] = this.#parts.flash[this.#hungAt]!;
    this.#hungAt = -1;
    this.#asleep = false;
    this.#watchdogFired = false;
    this.#parts.bus.abandon();
    const cpu = new CPU(this.#flash, SRAM_BYTES);
    cpu.cycles = cycles;
    cpu.data[MCUSR] = cause;
    this.#attach(cpu);
    return cpu;
  }

  #attach(cpu: CPU): void {
    const { eeprom, bus, random, onByte } = this.#parts;
    new LazyTimer(cpu, TIMER_0);
    new LazyTimer(cpu, TIMER_1);
    this.#uart = new Uart(cpu, onByte);
    this.#twi = new Twi(cpu, bus);
    new Watchdog(cpu, {
      frequencyHz: CYCLES_PER_S,
      onReset: () => {
        this.#watchdogFired = true;
      },
      jitter: () => random.normal(0.001),
    });
    new AVREEPROM(cpu, eeprom, eepromConfig);
    const adc = new AVRADC(cpu, adcConfig);
    adc.onADCRead = () => {
      // Open inputs: anything.
      const counts = Math.floor(random.between(0, 1024));
      cpu.addClockEvent(() => adc.completeADCRead(counts), adc.sampleCycles);
    };
    this.#ports = {
      B: new AVRIOPort(cpu, portBConfig),
      C: new AVRIOPort(cpu, portCConfig),
      D: new AVRIOPort(cpu, portDConfig),
    };
    for (const [pin, high] of this.#wires) this.#showWire(pin, high);
    this.#watchClockLine();
    this.#showLines();
  }

  /** Clock pulses the program gives by hand while the I2C master is off. */
  #watchClockLine(): void {
    let low = false;
    this.#ports.C.addListener(() => {
      const nowLow = this.#ports.C.pinState(SCL_BIT) === PinState.Low;
      if (low && !nowLow && !this.#twi.enabled) this.#parts.bus.clockPulse();
      low = nowLow;
    });
  }

  #showLines(): void {
    this.#ports.C.setPin(SDA_BIT, !this.#parts.bus.dataHeld);
    this.#ports.C.setPin(SCL_BIT, !this.#parts.bus.clockHeld);
  }

  /** Runs until at least this cycle. */
  run(untilCycle: number): void {
    while (this.#cpu.cycles < untilCycle) {
      if (this.#asleep) {
        this.#sleep(untilCycle);
      } else {
        this.#work(untilCycle);
      }
      if (this.#watchdogFired) this.reset(RESET_CAUSE.watchdog);
    }
  }

  /** From clock event to clock event until an interrupt wakes the program. */
  #sleep(untilCycle: number): void {
    const cpu = this.#cpu;
    const event = cpu['nextClockEvent'] as { cycles: number } | null;
    if (cpu.nextInterrupt < 0) {
      const next = event === null ? untilCycle : Math.min(event.cycles, untilCycle);
      if (next > cpu.cycles) {
        this.#skippedCycles += next - cpu.cycles;
        cpu.cycles = next;
      }
      if (event === null || event.cycles > cpu.cycles) return;
    }
    const before = cpu.pc;
    cpu.tick();
    if (cpu.pc !== before) this.#asleep = false;
  }

  #work(untilCycle: number): void {
    const cpu = this.#cpu;
    const { progMem, data } = cpu;
    while (cpu.cycles < untilCycle) {
      const instruction = progMem[cpu.pc];
      avrInstruction(cpu);
      if (instruction === SLEEP && data[SMCR]! & SLEEP_ENABLED) {
        this.#asleep = true;
        return;
      }
      if (instruction === SEI || instruction === RETI) continue;
      for (;;) {
        const event = cpu['nextClockEvent'] as { cycles: number } | null;
        const due = event !== null && event.cycles <= cpu.cycles;
        if (!due && (cpu.nextInterrupt < 0 || !(data[0x5f]! & 0x80))) break;
        cpu.tick();
        if (!due) break;
      }
      if (this.#watchdogFired) return;
    }
  }
}
