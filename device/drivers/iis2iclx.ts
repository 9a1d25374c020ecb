import { Fault } from '#core/fault/fault.ts';
import { addressText } from '../bus/bus.ts';
import { type Chip, type Count, countWithout, type Driver, type StepAnswer } from './driver.ts';

/**
 * ST IIS2ICLX, two-axis inclinometer. Registers and bits: data sheet DS13005 Rev 7, register
 * description pp. 41-63; addresses 0x6A (SA0 low) and 0x6B (SA0 high).
 */
const REGISTER = {
  whoAmI: 0x0f,
  ctrl1: 0x10,
  ctrl3: 0x12,
  ctrl8: 0x17,
  ctrl9: 0x18,
  temperature: 0x20,
  x: 0x28,
} as const;
const WHO_AM_I = 0x6b;

/** CTRL3_C: SW_RESET; then BDU (no half of a new value beside half of an old) and IF_INC. */
const SOFTWARE_RESET = 0x01;
const BLOCK_UPDATE_AND_INCREMENT = 0x44;
/** CTRL1_XL: ODR 104 Hz (0100), +-0.5 g (00), LPF2 on. */
const RATE_104_HZ_HALF_G_FILTERED = 0x42;
const OUTPUT_RATE_HZ = 104;
/** CTRL9_XL: DEVICE_CONF is to be set at start and after each reset. */
const DEVICE_CONF = 0x02;
/** After SW_RESET; the sheet gives no figure for this part (our guess, read back afterwards). */
const RESET_S = 0.02;

/** CTRL8_XL HPCF_XL: corner of LPF2 as a part of the output rate (Table 53). */
const LPF2_DIVISORS = [4, 10, 20, 45, 100, 200, 400, 800] as const;

/** Scans in a row with all three counts alike; its noise moves the last bits at every rate used here. */
const STUCK_AFTER_SCANS = 50;

/**
 * CTRL8_XL with the widest filter whose corner is at most half the scan rate, so that nothing
 * above it folds down into the heel. The high-pass path stays off: it would remove the heel.
 * Throws a RangeError for scans slower than the narrowest filter allows.
 */
export function filterSetting(periodUs: number): number {
  const mostHz = 1e6 / periodUs / 2;
  const code = LPF2_DIVISORS.findIndex((divisor) => OUTPUT_RATE_HZ / divisor <= mostHz);
  if (code < 0) throw new RangeError(`no filter for a scan every ${periodUs} us`);
  return code << 5;
}

async function identify(chip: Pick<Chip, 'bus' | 'address' | 'where'>): Promise<void> {
  const [identity] = await chip.bus.read(chip.address, REGISTER.whoAmI, 1);
  if (identity !== WHO_AM_I) {
    const found = `WHO_AM_I ${addressText(identity ?? 0)}, not ${addressText(WHO_AM_I)}`;
    throw new Fault('chip-wrong-identity', chip.where, found);
  }
}

async function proveSettings(chip: Chip, periodUs: number): Promise<void> {
  const expected = [
    [REGISTER.ctrl1, RATE_104_HZ_HALF_G_FILTERED],
    [REGISTER.ctrl3, BLOCK_UPDATE_AND_INCREMENT],
    [REGISTER.ctrl8, filterSetting(periodUs)],
  ] as const;
  for (const [register, wanted] of expected) {
    const [value] = await chip.bus.read(chip.address, register, 1);
    if (value !== wanted) {
      const found = `register ${addressText(register)} holds ${addressText(value ?? 0)}, not ${addressText(wanted)}`;
      throw new Fault('chip-not-configured', chip.where, found);
    }
  }
}

async function configure(chip: Chip, periodUs: number): Promise<void> {
  const { bus, address } = chip;
  await identify(chip);
  await bus.write(address, REGISTER.ctrl3, [SOFTWARE_RESET]);
  await chip.waitS(RESET_S);
  await bus.write(address, REGISTER.ctrl3, [BLOCK_UPDATE_AND_INCREMENT]);
  const [ctrl9] = await bus.read(address, REGISTER.ctrl9, 1);
  await bus.write(address, REGISTER.ctrl9, [(ctrl9 ?? 0) | DEVICE_CONF]);
  await bus.write(address, REGISTER.ctrl8, [filterSetting(periodUs)]);
  await bus.write(address, REGISTER.ctrl1, [RATE_104_HZ_HALF_G_FILTERED]);
  await proveSettings(chip, periodUs);
}

/** Low byte first (CTRL3_C leaves the order as it is after reset). */
function int16(bytes: Uint8Array, at: number): number {
  return ((bytes[at]! | (bytes[at + 1]! << 8)) << 16) >> 16;
}

function counts(answers: readonly StepAnswer[]): readonly Count[] {
  const [axes, temperature] = answers;
  const good = (count: number): Count => ({ count, fault: null });
  return [
    ...(axes?.kind === 'bytes'
      ? [good(int16(axes.bytes, 0)), good(int16(axes.bytes, 2))]
      : [countWithout(axes!), countWithout(axes!)]),
    temperature?.kind === 'bytes' ? good(int16(temperature.bytes, 0)) : countWithout(temperature!),
  ];
}

export const iis2iclx: Driver = {
  part: 'iis2iclx',
  addresses: [0x6a, 0x6b],
  quantities: ['x', 'y', 'temperature'],
  stuckAfterScans: STUCK_AFTER_SCANS,
  countRange: { least: -32768, most: 32767 },
  identify,
  configure,
  async check(chip, periodUs) {
    await identify(chip);
    await proveSettings(chip, periodUs);
  },
  steps: () => [
    { register: REGISTER.x, readCount: 4, write: [], when: 'always', fromFrameBefore: false },
    {
      register: REGISTER.temperature,
      readCount: 2,
      write: [],
      when: 'always',
      fromFrameBefore: false,
    },
  ],
  counts,
};
