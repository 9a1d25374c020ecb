import { Fault } from '#core/fault/fault.ts';
import { addressText } from '../bus/bus.ts';
import { type Chip, type Count, countWithout, type Driver, type StepAnswer } from './driver.ts';

/**
 * What ST's accelerometers of this family have in common. Registers and bits: data sheet DS13005
 * Rev 7 (IIS2ICLX), register description pp. 41-63, and the maker's drivers iis2iclx-pid and
 * lsm6dso-pid; addresses 0x6A (SA0 low) and 0x6B (SA0 high).
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

/** CTRL3_C: SW_RESET; then BDU (no half of a new value beside half of an old) and IF_INC. */
const SOFTWARE_RESET = 0x01;
const BLOCK_UPDATE_AND_INCREMENT = 0x44;
/** CTRL1_XL: ODR 104 Hz (0100), the smallest range (00), LPF2 on. */
const RATE_104_HZ_FINEST_FILTERED = 0x42;
const OUTPUT_RATE_HZ = 104;
/**
 * CTRL9_XL bit 1, to be set at start and after each reset: DEVICE_CONF of an IIS2ICLX,
 * I3C_disable of an LSM6DSO.
 */
const CTRL9_BIT_1 = 0x02;
/** After SW_RESET; the sheet gives no figure (our guess, read back afterwards). */
const RESET_S = 0.02;

/** CTRL8_XL HPCF_XL: corner of LPF2 as a part of the output rate (DS13005 Table 53). */
const LPF2_DIVISORS = [4, 10, 20, 45, 100, 200, 400, 800] as const;

/** Scans in a row with all counts alike; its noise moves the last bits at every rate used here. */
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

/** The driver of one part of the family. */
export function stAccelerometer(of: {
  part: string;
  whoAmI: number;
  axes: readonly ('x' | 'y' | 'z')[];
}): Driver {
  const identify = async (chip: Pick<Chip, 'bus' | 'address' | 'where'>): Promise<void> => {
    const [identity] = await chip.bus.read(chip.address, REGISTER.whoAmI, 1);
    if (identity !== of.whoAmI) {
      const found = `WHO_AM_I ${addressText(identity ?? 0)}, not ${addressText(of.whoAmI)}`;
      throw new Fault('chip-wrong-identity', chip.where, found);
    }
  };
  return {
    part: of.part,
    addresses: [0x6a, 0x6b],
    quantities: [...of.axes, 'temperature'],
    isLeg: false,
    foundByLooking: true,
    aloneBecause: null,
    stuckAfterScans: STUCK_AFTER_SCANS,
    countRange: { least: -32768, most: 32767 },
    identify,
    async configure(chip, periodUs) {
      await identify(chip);
      await setUp(chip, periodUs);
      await proveSettings(chip, periodUs);
    },
    async check(chip, periodUs) {
      await identify(chip);
      await proveSettings(chip, periodUs);
    },
    steps: () => [readAlways(REGISTER.x, 2 * of.axes.length), readAlways(REGISTER.temperature, 2)],
    counts: (answers) => countsOf(answers, of.axes.length),
  };
}

const readAlways = (register: number, readCount: number) =>
  ({ register, readCount, write: [], when: 'always', fromFrameBefore: false }) as const;

async function setUp({ bus, address, waitS }: Chip, periodUs: number): Promise<void> {
  await bus.write(address, REGISTER.ctrl3, [SOFTWARE_RESET]);
  await waitS(RESET_S);
  await bus.write(address, REGISTER.ctrl3, [BLOCK_UPDATE_AND_INCREMENT]);
  const [ctrl9] = await bus.read(address, REGISTER.ctrl9, 1);
  await bus.write(address, REGISTER.ctrl9, [(ctrl9 ?? 0) | CTRL9_BIT_1]);
  await bus.write(address, REGISTER.ctrl8, [filterSetting(periodUs)]);
  await bus.write(address, REGISTER.ctrl1, [RATE_104_HZ_FINEST_FILTERED]);
}

async function proveSettings(chip: Chip, periodUs: number): Promise<void> {
  const expected = [
    [REGISTER.ctrl1, RATE_104_HZ_FINEST_FILTERED],
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

/** Low byte first (CTRL3_C leaves the order as it is after reset). */
function int16(bytes: Uint8Array, at: number): number {
  return ((bytes[at]! | (bytes[at + 1]! << 8)) << 16) >> 16;
}

function countsOf(answers: readonly StepAnswer[], axisCount: number): readonly Count[] {
  const [axes, temperature] = answers;
  const good = (count: number): Count => ({ count, fault: null });
  return [
    ...Array.from({ length: axisCount }, (_, axis) =>
      axes?.kind === 'bytes' ? good(int16(axes.bytes, 2 * axis)) : countWithout(axes!),
    ),
    temperature?.kind === 'bytes' ? good(int16(temperature.bytes, 0)) : countWithout(temperature!),
  ];
}
