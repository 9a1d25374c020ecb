import type { InclinometerElement } from '../elements/element.ts';
import type { I2cChip } from '../i2c.ts';

/**
 * Analog Devices ADXL355 at register level: data sheet ADXL354/ADXL355 Rev. 0, Table 14 and the
 * register descriptions after it. Modelled: identity, reset, standby, output rate, low-pass,
 * range, address increment, status, temperature. FIFO, activity, interrupts, synchronisation and
 * self test are not: their registers only keep what is written. What it does to other chips on its
 * bus is not modelled either: the program refuses to put any there.
 */
const REGISTER = {
  identity: 0x00,
  status: 0x04,
  temperature: 0x06,
  firstAxis: 0x08,
  lastAxis: 0x10,
  fifoData: 0x11,
  filter: 0x28,
  fifoSamples: 0x29,
  range: 0x2c,
  power: 0x2d,
  reset: 0x2f,
} as const;
const REGISTER_COUNT = 128;

/** DEVID_AD, DEVID_MST, PARTID, REVID. */
const IDENTITY = [0xad, 0x1d, 0xed, 0x01] as const;
/** Table 14, reset column. */
const DEFAULTS = [
  [0x27, 0x01],
  [REGISTER.fifoSamples, 0x60],
  [REGISTER.range, 0x81],
  [REGISTER.power, 0x01],
] as const;

const RESET_CODE = 0x52;
const STANDBY = 0x01;
const DATA_READY = 0x01;
/** Full scale by RANGE bits 1:0 (00 is not in the sheet: taken as 01). */
const RANGES_G = [2, 2, 4, 8] as const;
/** FILTER ODR_LPF 0 to 10: 4000 Hz halved each time; the corner is a quarter of it (Table 44). */
const FASTEST_HZ = 4000;
const SLOWEST_CODE = 10;

type Output = ReturnType<InclinometerElement['read']>;
const NO_OUTPUT: Output = {
  tick: -1,
  xCounts: 0,
  yCounts: 0,
  zCounts: 0,
  temperatureCounts: 0,
  saturated: false,
};

export class Adxl355 implements I2cChip {
  /** 0x1D with ASEL low, 0x53 with ASEL high. */
  readonly address: 0x1d | 0x53;
  readonly #element: InclinometerElement;
  readonly #registers = new Uint8Array(REGISTER_COUNT);
  #pointer = 0;
  #pointerDue = false;
  #last = NO_OUTPUT;
  /** One read takes all its bytes from one conversion. */
  #taken: Output | null = null;
  #readTick = -1;

  constructor(address: 0x1d | 0x53, element: InclinometerElement) {
    this.address = address;
    this.#element = element;
    this.powerUp();
  }

  begin(write: boolean): boolean {
    this.#pointerDue = write;
    this.#taken = null;
    return true;
  }

  write(byte: number, timeS: number): boolean {
    if (this.#pointerDue) {
      this.#pointer = byte & (REGISTER_COUNT - 1);
      this.#pointerDue = false;
      return true;
    }
    const register = this.#pointer;
    this.#increment();
    if (register === REGISTER.reset) {
      if (byte === RESET_CODE) this.powerUp();
    } else if (register > REGISTER.fifoData) this.#set(register, byte, timeS);
    return true;
  }

  read(timeS: number): number {
    const register = this.#pointer;
    this.#increment();
    if (register === REGISTER.status) return this.#status(timeS);
    if (register === REGISTER.fifoData) return 0;
    if (register < REGISTER.temperature || register > REGISTER.lastAxis) {
      return this.#registers[register]!;
    }
    this.#taken ??= this.#output(timeS);
    this.#readTick = this.#taken.tick;
    return byteOf(this.#taken, register);
  }

  end(): void {
    this.#pointerDue = false;
  }

  powerUp(): void {
    this.#registers.fill(0);
    this.#registers.set(IDENTITY, REGISTER.identity);
    for (const [register, value] of DEFAULTS) this.#registers[register] = value;
    this.#last = NO_OUTPUT;
    this.#readTick = -1;
  }

  settle(): void {
    // The element remembers for itself.
  }

  /** A read that reaches the FIFO stays there. */
  #increment(): void {
    if (this.#pointer !== REGISTER.fifoData) {
      this.#pointer = (this.#pointer + 1) & (REGISTER_COUNT - 1);
    }
  }

  get #isMeasuring(): boolean {
    return (this.#registers[REGISTER.power]! & STANDBY) === 0;
  }

  /** Rate and range are taken over when measuring begins: the sheet asks for standby to set them. */
  #set(register: number, byte: number, timeS: number): void {
    const wasMeasuring = this.#isMeasuring;
    if (wasMeasuring && (register === REGISTER.filter || register === REGISTER.range)) return;
    this.#registers[register] = byte;
    if (register !== REGISTER.power || wasMeasuring === this.#isMeasuring) return;
    if (wasMeasuring) {
      this.#last = this.#element.read(timeS);
      return;
    }
    const code = Math.min(SLOWEST_CODE, this.#registers[REGISTER.filter]! & 0x0f);
    const odrHz = FASTEST_HZ / 2 ** code;
    const rangeG = RANGES_G[this.#registers[REGISTER.range]! & 0x03]!;
    this.#element.configure({ odrHz, bandwidthHz: odrHz / 4, rangeG }, timeS);
  }

  #output(timeS: number): Output {
    const output = this.#isMeasuring ? this.#element.read(timeS) : this.#last;
    // The high-pass takes away what stands still: the heel. Its noise is not modelled.
    return this.#registers[REGISTER.filter]! & 0x70
      ? { ...output, xCounts: 0, yCounts: 0, zCounts: 0 }
      : output;
  }

  #status(timeS: number): number {
    return this.#output(timeS).tick > this.#readTick ? DATA_READY : 0;
  }
}

/** TEMP2, TEMP1, then three bytes an axis, the value in their upper 20 bits. */
function byteOf(output: Output, register: number): number {
  if (register < REGISTER.firstAxis) {
    const shift = register === REGISTER.temperature ? 8 : 0;
    return (output.temperatureCounts >> shift) & (shift === 8 ? 0x0f : 0xff);
  }
  const at = register - REGISTER.firstAxis;
  const axes = [output.xCounts, output.yCounts, output.zCounts ?? 0];
  const word = axes[Math.floor(at / 3)]! << 4;
  return (word >> (16 - 8 * (at % 3))) & 0xff;
}
