import type { FaultCode } from '../fault/fault.ts';
import type { Channel, SampleBlock } from './stream-item.ts';

/** One instrument's part of a block; every column has one value a sample. */
export interface InstrumentHeel {
  readonly instrument: string;
  /** Starboard down positive. Null where a count it needs is missing or at fault. */
  readonly heelDeg: readonly (number | null)[];
  /** Of the chip, with an unknown offset; null where the instrument has none or it was not read. */
  readonly temperatureC: readonly (number | null)[];
  /** False: no certificate, the heel is uncorrected and not for GM. */
  readonly calibrated: boolean;
  /** What conversion itself found wrong: [sample index in block, code]. */
  readonly faults: readonly (readonly [number, FaultCode])[];
}

export interface Column {
  readonly index: number;
  readonly part: string;
}

/** A block with its faults looked up by column. */
export interface CheckedBlock {
  readonly block: SampleBlock;
  readonly faulty: ReadonlySet<number>;
}

/** Key of a faulty count: sample and channel in one number (a block has at most 256 samples). */
export const faultKey = (sample: number, column: number): number => column * 256 + sample;

export type Converter = (checked: CheckedBlock) => InstrumentHeel;

export function columnOf(
  channels: readonly Channel[],
  instrument: string,
  quantity: string,
): Column {
  const index = channels.findIndex(
    (one) => one.instrument === instrument && one.quantity === quantity,
  );
  const found = channels[index];
  if (found === undefined) throw new RangeError(`${instrument} has no column ${quantity}`);
  return { index, part: found.part };
}

/** The count of a sample, or null where it is missing or has a fault. */
export function soundCount(checked: CheckedBlock, column: Column, sample: number): number | null {
  if (checked.faulty.has(faultKey(sample, column.index))) return null;
  return checked.block.columns[column.index]?.[sample] ?? null;
}

export function needPart(column: Column, part: string): void {
  if (column.part !== part) throw new RangeError(`counts of a ${column.part}, not of an ${part}`);
}
