import { type PlainUncertain, uncertainHalfWidth95 } from '../numerics/coverage.ts';
import type { FieldValue } from '../record/correction.ts';
import type { Written } from '../session/session.ts';
import { fixed, measured, significant } from './figure.ts';

/** Words that stand all over a report. Times are printed in UTC, so that a record always prints alike. */
export const NOT_STATED = 'not stated';

/** `2026-05-04 09:00:12 UTC`. */
export function wallWords(wall: string): string {
  return `${wall.slice(0, 10)} ${wall.slice(11, 19)} UTC`;
}

export function dayWords(wall: string): string {
  return wall.slice(0, 10);
}

/** Who wrote a line, when, and which line it is. */
export function writtenWords({ author, role, wall, line }: Written): string {
  return `${author} (${role}), ${wallWords(wall)}, line ${line}`;
}

export function metres(one: PlainUncertain): string {
  return measured(one.value, one.halfWidth95, 'm');
}

/** A mean and half its 95 % interval by Student's t, without a unit: it stands in the column's head. */
export function degreesPair(heelDeg: number, standardErrorDeg: number, freedom: number): string {
  const halfWidth = uncertainHalfWidth95({
    value: heelDeg,
    standardUncertainty: standardErrorDeg,
    degreesOfFreedom: freedom,
  });
  return measured(heelDeg, halfWidth, '');
}

/** A figure with one standard uncertainty as it was stated by somebody. */
export function stated(value: number, standardUncertainty: number | null, unit: string): string {
  const one = `${significant(value, 9)} ${unit}`;
  return standardUncertainty === null
    ? `${one}, uncertainty ${NOT_STATED}`
    : `${one}, standard uncertainty ${significant(standardUncertainty, 4)} ${unit}`;
}

/** How likely so much is by chance. */
export function chanceWords(probability: number): string {
  return probability < 0.0001 ? 'under 0.0001' : significant(probability, 2);
}

export function percent(share: number, decimals = 0): string {
  return `${fixed(100 * share, decimals)} %`;
}

/** A value as a line of the record has it. */
export function valueWords(value: FieldValue): string {
  if (value === null) return 'none';
  return Array.isArray(value) ? value.join(', ') : String(value);
}

/** Seconds of the receiver's clock, from its start. */
export function secondsWords(seconds: number): string {
  return fixed(seconds, 1);
}
