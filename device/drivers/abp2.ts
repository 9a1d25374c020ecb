import { Fault } from '#core/fault/fault.ts';
import { addressText } from '../bus/bus.ts';
import { type Chip, type Count, countWithout, type Driver, type StepAnswer } from './driver.ts';

/**
 * Honeywell ABP2, gauge pressure sensor, one on the foot of each leg of a water tube. It has no
 * registers: `AA 00 00` starts a measurement, and a plain read gives a status byte, 24 bits of
 * pressure and 24 of temperature, high byte first (frame as in the Linux iio driver mprls0025pa
 * and its ABP2 extension). Addresses by order code (*from memory*); 0x28 is the common one.
 */
const MEASURE = 0xaa;
const FRAME_BYTES = 7;
/** A measurement takes 5 ms at most (the same driver); a scan is late with the start by some. */
const MEASURING_S = 0.01;
const LEAST_PERIOD_US = 8000;

/** Status: powered always; the others must be 0, reserved bits (7, 4, 3, 1) among them. */
const POWERED = 0x40;
const BUSY = 0x20;
const MEMORY_BROKEN = 0x04;
const SATURATED = 0x01;
const RESERVED = 0x9a;

/** 24 bits of it never stand still, not even over water at rest. */
const STUCK_AFTER_SCANS = 50;

/** It has no identity register: what no other status looks like stands for one. */
function checkStatus(status: number, where: string): void {
  if ((status & POWERED) === 0 || (status & RESERVED) !== 0) {
    throw new Fault('chip-wrong-identity', where, `status ${addressText(status)}`);
  }
  if ((status & MEMORY_BROKEN) !== 0) {
    throw new Fault('chip-memory', where, `status ${addressText(status)}`);
  }
}

async function identify(chip: Pick<Chip, 'bus' | 'address' | 'where'>): Promise<void> {
  const [status] = await chip.bus.read(chip.address, null, 1);
  checkStatus(status ?? 0, chip.where);
}

/** One measurement from beginning to end: nothing can be set, but it must do its work. */
async function configure(chip: Chip, periodUs: number): Promise<void> {
  checkPeriod(periodUs);
  await identify(chip);
  await chip.bus.write(chip.address, MEASURE, [0, 0]);
  await chip.waitS(MEASURING_S);
  const [status] = await chip.bus.read(chip.address, null, FRAME_BYTES);
  checkStatus(status ?? 0, chip.where);
  if (((status ?? 0) & BUSY) !== 0) {
    throw new Fault('chip-not-configured', chip.where, 'a measurement does not end');
  }
}

function checkPeriod(periodUs: number): void {
  if (periodUs < LEAST_PERIOD_US) {
    throw new RangeError(`no measurement fits a scan every ${periodUs} us`);
  }
}

function uint24(bytes: Uint8Array, at: number): number {
  return (bytes[at]! << 16) | (bytes[at + 1]! << 8) | bytes[at + 2]!;
}

function counts([answer]: readonly StepAnswer[]): readonly Count[] {
  if (answer?.kind !== 'bytes') return [countWithout(answer!), countWithout(answer!)];
  const { bytes } = answer;
  const status = bytes[0]!;
  const both = (fault: Count['fault']): Count[] =>
    [uint24(bytes, 1), uint24(bytes, 4)].map((count) => ({ count, fault }));
  if ((status & POWERED) === 0 || (status & RESERVED) !== 0) return both('chip-wrong-identity');
  if ((status & MEMORY_BROKEN) !== 0) return both('chip-memory');
  if ((status & BUSY) !== 0) return both('chip-not-ready');
  if ((status & SATURATED) !== 0) return both('chip-saturated');
  return both(null);
}

export const abp2: Driver = {
  part: 'abp2',
  addresses: [0x28, 0x08, 0x18, 0x38, 0x48, 0x58, 0x68],
  quantities: ['leg', 'temperature'],
  isLeg: true,
  // Its status byte alone tells too little of what else may answer at these addresses.
  foundByLooking: false,
  aloneBecause: null,
  stuckAfterScans: STUCK_AFTER_SCANS,
  countRange: { least: 0, most: 0xff_ffff },
  identify,
  configure,
  check: identify,
  steps(periodUs) {
    checkPeriod(periodUs);
    return [
      {
        register: null,
        readCount: FRAME_BYTES,
        write: [],
        when: 'always',
        fromFrameBefore: true,
      },
      { register: MEASURE, readCount: 0, write: [0, 0], when: 'always', fromFrameBefore: false },
    ];
  },
  counts,
};
