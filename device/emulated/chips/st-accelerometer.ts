import type { InclinometerElement } from '../elements/element.ts';
import type { I2cChip } from '../i2c.ts';

/**
 * ST's accelerometers of this family at register level: data sheet DS13005 Rev 7 (IIS2ICLX),
 * register description pp. 41-63; the LSM6DSO by the fields of the maker's driver lsm6dso-pid.
 * Modelled: identity, reset, output rate, range, low-pass filter, block update, address
 * increment, status, temperature. FIFO, interrupts, self test, user offsets and the chip's own
 * time stamp are not: their registers only keep what is written.
 */
const REGISTER = {
  whoAmI: 0x0f,
  ctrl1: 0x10,
  ctrl3: 0x12,
  ctrl8: 0x17,
  ctrl9: 0x18,
  status: 0x1e,
  outTemperature: 0x20,
  outX: 0x28,
  outY: 0x2a,
  outZ: 0x2c,
} as const;
const REGISTER_COUNT = 128;

/** In what the parts of the family differ. */
export interface StModel {
  readonly whoAmI: number;
  /** CTRL1_XL FS_XL. */
  readonly rangesG: readonly [number, number, number, number];
  readonly axisCount: 2 | 3;
}

/** After power-up or reset: CTRL3_C with IF_INC, CTRL9_XL with DEN_X..DEN_Z (*from memory*). */
const DEFAULTS = [
  [REGISTER.ctrl3, 0x04],
  [REGISTER.ctrl9, 0xe0],
] as const;

const SW_RESET = 0x01;
const IF_INC = 0x04;
const BDU = 0x40;
const BOOT = 0x80;
const LPF2_XL_EN = 0x02;
const HP_SLOPE_XL_EN = 0x04;
const XLDA = 0x01;
const TDA = 0x04;

/** CTRL1_XL ODR_XL: codes 1 to 7; 0 is power-down. */
const RATES_HZ = [0, 12.5, 26, 52, 104, 208, 416, 833] as const;
/** Table 53, corner of LPF2 as a part of the output rate, by HPCF_XL; without LPF2 it is 1/2. */
const LPF2_DIVISORS = [4, 10, 20, 45, 100, 200, 400, 800] as const;

/** How long a reset and a reload of the trimming take (*from memory*). */
const RESET_S = 50e-6;
const BOOT_S = 0.01;

type Output = ReturnType<InclinometerElement['read']>;
const NO_OUTPUT: Output = {
  tick: -1,
  xCounts: 0,
  yCounts: 0,
  temperatureCounts: 0,
  saturated: false,
};

export class StAccelerometer implements I2cChip {
  /** 0x6A with SA0 low, 0x6B with SA0 high. */
  readonly address: 0x6a | 0x6b;
  readonly #element: InclinometerElement;
  readonly #model: StModel;
  readonly #registers = new Uint8Array(REGISTER_COUNT);
  #pointer = 0;
  #pointerDue = false;
  #busyUntilS = 0;
  #busyBit = 0;
  #measuring = '';
  /** What stood in the outputs when measuring stopped. */
  #last = NO_OUTPUT;
  /** Words held by block update until their other half is read, by register of the low half. */
  readonly #held = new Map<number, { word: number; halfRead: number }>();
  #axesReadTick = -1;
  #temperatureReadTick = -1;

  constructor(address: 0x6a | 0x6b, element: InclinometerElement, model: StModel) {
    this.address = address;
    this.#element = element;
    this.#model = model;
    this.#setDefaults();
  }

  begin(write: boolean): boolean {
    this.#pointerDue = write;
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
    if (!this.#isReadOnly(register)) this.#set(register, byte, timeS);
    return true;
  }

  read(timeS: number): number {
    const register = this.#pointer;
    this.#increment();
    if (this.#isOutput(register)) return this.#outputByte(register, timeS);
    if (register === REGISTER.status) return this.#status(timeS);
    if (register === REGISTER.ctrl3 && timeS < this.#busyUntilS) {
      return this.#registers[register]! | this.#busyBit;
    }
    return this.#registers[register]!;
  }

  end(): void {
    this.#pointerDue = false;
  }

  powerUp(): void {
    this.#setDefaults();
  }

  settle(): void {
    // The element remembers for itself.
  }

  #isOutput(register: number): boolean {
    const axesEnd = REGISTER.outX + 2 * this.#model.axisCount;
    return (
      (register & ~1) === REGISTER.outTemperature ||
      (register >= REGISTER.outX && register < axesEnd)
    );
  }

  #isReadOnly(register: number): boolean {
    return register === REGISTER.whoAmI || register === REGISTER.status || this.#isOutput(register);
  }

  #increment(): void {
    if (this.#registers[REGISTER.ctrl3]! & IF_INC) {
      this.#pointer = (this.#pointer + 1) & (REGISTER_COUNT - 1);
    }
  }

  #setDefaults(): void {
    this.#registers.fill(0);
    this.#registers[REGISTER.whoAmI] = this.#model.whoAmI;
    for (const [register, value] of DEFAULTS) this.#registers[register] = value;
    this.#measuring = '';
    this.#last = NO_OUTPUT;
    this.#held.clear();
    this.#axesReadTick = -1;
    this.#temperatureReadTick = -1;
  }

  #set(register: number, byte: number, timeS: number): void {
    if (register === REGISTER.ctrl3 && byte & (SW_RESET | BOOT)) {
      const reset = (byte & SW_RESET) !== 0;
      this.#busyBit = reset ? SW_RESET : BOOT;
      this.#busyUntilS = timeS + (reset ? RESET_S : BOOT_S);
      if (reset) this.#setDefaults();
      else this.#registers[register] = byte & ~BOOT;
      return;
    }
    this.#registers[register] = byte;
    if (register === REGISTER.ctrl1 || register === REGISTER.ctrl8) this.#measure(timeS);
  }

  /** Follows the control registers: off, on, or on with other settings. */
  #measure(timeS: number): void {
    const ctrl1 = this.#registers[REGISTER.ctrl1]!;
    const odrHz = RATES_HZ[ctrl1 >> 4] ?? 0;
    if (odrHz === 0) {
      if (this.#measuring !== '') this.#last = this.#element.read(timeS);
      this.#measuring = '';
      return;
    }
    const divisor = ctrl1 & LPF2_XL_EN ? LPF2_DIVISORS[this.#registers[REGISTER.ctrl8]! >> 5]! : 2;
    const settings = {
      odrHz,
      bandwidthHz: odrHz / divisor,
      rangeG: this.#model.rangesG[(ctrl1 >> 2) & 0x03]!,
    };
    const wanted = JSON.stringify(settings);
    if (wanted === this.#measuring) return;
    this.#measuring = wanted;
    this.#element.configure(settings, timeS);
  }

  #output(timeS: number): Output {
    const output = this.#measuring === '' ? this.#last : this.#element.read(timeS);
    // The high-pass path takes away what stands still: the heel. Its noise is not modelled.
    return this.#registers[REGISTER.ctrl8]! & HP_SLOPE_XL_EN
      ? { ...output, xCounts: 0, yCounts: 0, zCounts: 0 }
      : output;
  }

  #status(timeS: number): number {
    const { tick } = this.#output(timeS);
    return (tick > this.#axesReadTick ? XLDA : 0) | (tick > this.#temperatureReadTick ? TDA : 0);
  }

  #outputByte(register: number, timeS: number): number {
    const low = register & ~1;
    const half = register & 1;
    const output = this.#output(timeS);
    if (half === 1) {
      if (low === REGISTER.outTemperature) this.#temperatureReadTick = output.tick;
      else this.#axesReadTick = output.tick;
    }
    const fresh = wordOf(output, low);
    const word = this.#registers[REGISTER.ctrl3]! & BDU ? this.#heldWord(low, half, fresh) : fresh;
    return half === 0 ? word & 0xff : (word >> 8) & 0xff;
  }

  /** BDU: a word does not change between the reading of its halves. */
  #heldWord(low: number, half: number, fresh: number): number {
    const held = this.#held.get(low);
    if (held === undefined) {
      this.#held.set(low, { word: fresh, halfRead: half });
      return fresh;
    }
    if (held.halfRead !== half) this.#held.delete(low);
    return held.word;
  }
}

function wordOf(output: Output, low: number): number {
  if (low === REGISTER.outTemperature) return output.temperatureCounts;
  if (low === REGISTER.outZ) return output.zCounts ?? 0;
  return low === REGISTER.outX ? output.xCounts : output.yCounts;
}
