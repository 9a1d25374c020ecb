import { z } from 'zod';
import { degreesFromRadians, radiansFromDegrees } from '../quantity/angle.ts';

/**
 * What a count of an instrument on a serial line stands for. No part number says it there: it
 * follows from the map the technician wrote, or from the form of a sentence, and so it stands in
 * the record beside the counts: value = offset + scale * number, in `unit`.
 */
export const counted = z.strictObject({
  /** `float32`: the count is the 32 bits of an IEEE 754 number; `integer`: it is the number. */
  form: z.enum(['integer', 'float32']),
  scale: z.number().refine((scale) => scale !== 0, 'a scale of 0'),
  offset: z.number(),
  unit: z.enum(['deg', 'rad', 'mm/m', 'g', 'mm', 'm', 'degC', 's']),
  /** The least difference it can show, in `unit`: as printed, stated, or seen. Null: not known. */
  step: z.number().positive().nullable(),
});
export type Counted = z.infer<typeof counted>;
export type CountedUnit = Counted['unit'];

/** Parts by the protocol they speak: nothing else is known of them. */
export const SERIAL_PARTS = { nmea: 'nmea-0183', modbus: 'modbus-rtu' } as const;

/** Beyond this an angle says another heel than its sine does. */
const MOST_HEEL_DEG = 90;
const MM_PER_M = 1000;

const bits = new DataView(new ArrayBuffer(4));

/** The number that 32 bits, given as a whole number from 0 to 2^32 - 1, stand for (IEEE 754 binary32). */
export function float32FromBits(count: number): number {
  bits.setUint32(0, count);
  return bits.getFloat32(0);
}

/** The value of a count, in its unit. Not finite where the bits of a `float32` are no number. */
export function valueOfCount(count: number, { form, scale, offset }: Counted): number {
  return offset + scale * (form === 'float32' ? float32FromBits(count) : count);
}

/**
 * Sine of the heel an inclinometer indicates, from a value in `unit`: an angle (deg, rad), a
 * gradient (mm/m: its tangent times 1000) or specific force athwartships (g: the sine itself).
 * Null for an angle beyond 90 degrees. RangeError for a unit that is none of heel.
 */
export function sineFromValue(value: number, unit: CountedUnit): number | null {
  switch (unit) {
    case 'deg':
      return Math.abs(value) > MOST_HEEL_DEG ? null : Math.sin(radiansFromDegrees(value));
    case 'rad':
      return sineFromValue(degreesFromRadians(value), 'deg');
    case 'mm/m':
      return Math.sin(Math.atan(value / MM_PER_M));
    case 'g':
      return value;
    default:
      throw new RangeError(`no heel is measured in ${unit}`);
  }
}

/** Millimetres of a level in mm or m. RangeError for another unit. */
export function levelMmFromValue(value: number, unit: CountedUnit): number {
  if (unit === 'mm') return value;
  if (unit === 'm') return value * MM_PER_M;
  throw new RangeError(`no level is measured in ${unit}`);
}

/**
 * Heel near upright that a difference in `unit` stands for, degrees; of a level the two legs' over
 * `spanM`. Null for units that are no heel, and for a level without a span.
 */
export function heelDegOfDifference(
  difference: number,
  unit: CountedUnit,
  spanM: number | null,
): number | null {
  switch (unit) {
    case 'deg':
      return difference;
    case 'rad':
    case 'g':
      return degreesFromRadians(difference);
    case 'mm/m':
      return degreesFromRadians(difference / MM_PER_M);
    case 'mm':
    case 'm':
      return spanM === null
        ? null
        : degreesFromRadians(levelMmFromValue(difference, unit) / (spanM * MM_PER_M));
    default:
      return null;
  }
}
