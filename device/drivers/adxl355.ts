import { Fault } from '#core/fault/fault.ts';
import { addressText } from '../bus/bus.ts';
import { type Chip, type Count, countWithout, type Driver, type StepAnswer } from './driver.ts';

/**
 * Analog Devices ADXL355, three-axis accelerometer. Registers: data sheet ADXL354/ADXL355 Rev. 0,
 * register map Table 14 and the register descriptions after it; addresses p. 26.
 */
const REGISTER = {
  identity: 0x00,
  temperature: 0x06,
  filter: 0x28,
  range: 0x2c,
  power: 0x2d,
  reset: 0x2f,
} as const;

/** DEVID_AD, DEVID_MST, PARTID. */
const IDENTITY = [0xad, 0x1d, 0xed] as const;
const RESET_CODE = 0x52;
/** The sheet says less than 10 ms from off to on; a reset was given the same. */
const RESET_S = 0.01;
/** RANGE: I2C_HS off, +-2 g. POWER_CTL: measuring, temperature on. */
const RANGE_2_G = 0x01;
const MEASURE = 0x00;

/** FILTER ODR_LPF: output rate in Hz by code, its low-pass corner at a quarter (Table 44). */
const CORNERS_HZ = Array.from({ length: 11 }, (_, code) => 1000 / 2 ** code);

/** From TEMP2 on: temperature, x, y, z (two bytes and three times three). */
const READ_BYTES = 11;
const STUCK_AFTER_SCANS = 50;

/**
 * FILTER with the widest low-pass whose corner is at most half the scan rate; HPF_CORNER stays
 * off, since a high-pass would remove the heel. RangeError for scans slower than the narrowest.
 */
export function filterCode(periodUs: number): number {
  const code = CORNERS_HZ.findIndex((cornerHz) => cornerHz <= 1e6 / periodUs / 2);
  if (code < 0) throw new RangeError(`no filter for a scan every ${periodUs} us`);
  return code;
}

async function identify(chip: Pick<Chip, 'bus' | 'address' | 'where'>): Promise<void> {
  const bytes = await chip.bus.read(chip.address, REGISTER.identity, IDENTITY.length);
  if (IDENTITY.some((wanted, k) => bytes[k] !== wanted)) {
    const found = `identity ${[...bytes].map(addressText).join(' ')}, not ${IDENTITY.map(addressText).join(' ')}`;
    throw new Fault('chip-wrong-identity', chip.where, found);
  }
}

async function proveSettings(chip: Chip, periodUs: number): Promise<void> {
  const expected = [
    [REGISTER.filter, filterCode(periodUs)],
    [REGISTER.range, RANGE_2_G],
    [REGISTER.power, MEASURE],
  ] as const;
  for (const [register, wanted] of expected) {
    const [value] = await chip.bus.read(chip.address, register, 1);
    if (value !== wanted) {
      const found = `register ${addressText(register)} holds ${addressText(value ?? 0)}, not ${addressText(wanted)}`;
      throw new Fault('chip-not-configured', chip.where, found);
    }
  }
}

/** Settings are written while it stands by, as after a reset; measuring begins last. */
async function configure(chip: Chip, periodUs: number): Promise<void> {
  const { bus, address } = chip;
  await identify(chip);
  await bus.write(address, REGISTER.reset, [RESET_CODE]);
  await chip.waitS(RESET_S);
  await bus.write(address, REGISTER.filter, [filterCode(periodUs)]);
  await bus.write(address, REGISTER.range, [RANGE_2_G]);
  await bus.write(address, REGISTER.power, [MEASURE]);
  await proveSettings(chip, periodUs);
}

/** 20 bits, high byte first, in the upper bits of three bytes. */
function int20(bytes: Uint8Array, at: number): number {
  return ((bytes[at]! << 24) | (bytes[at + 1]! << 16) | (bytes[at + 2]! << 8)) >> 12;
}

function counts([answer]: readonly StepAnswer[]): readonly Count[] {
  if (answer?.kind !== 'bytes') return Array.from({ length: 4 }, () => countWithout(answer!));
  const { bytes } = answer;
  // TEMP2 holds the upper four bits of the temperature, unsigned.
  const temperature = ((bytes[0]! & 0x0f) << 8) | bytes[1]!;
  return [int20(bytes, 2), int20(bytes, 5), int20(bytes, 8), temperature].map((count) => ({
    count,
    fault: null,
  }));
}

export const adxl355: Driver = {
  part: 'adxl355',
  addresses: [0x1d, 0x53],
  quantities: ['x', 'y', 'z', 'temperature'],
  isLeg: false,
  foundByLooking: true,
  // Later revisions of the sheet, as quoted in a Linux kernel discussion (raspberrypi/linux 6823).
  aloneBecause:
    'it acknowledges bytes meant for other chips where they look like its own address, and pulls the line low',
  stuckAfterScans: STUCK_AFTER_SCANS,
  countRange: { least: -524_288, most: 524_287 },
  identify,
  configure,
  async check(chip, periodUs) {
    await identify(chip);
    await proveSettings(chip, periodUs);
  },
  steps: () => [
    {
      register: REGISTER.temperature,
      readCount: READ_BYTES,
      write: [],
      when: 'always',
      fromFrameBefore: false,
    },
  ],
  counts,
};
