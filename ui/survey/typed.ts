import { lengthMm } from '../hand/length.ts';

/** What is typed on the sheets of the survey. Comma or point, a true minus too; nothing is guessed. */

/** A number without a unit; null when it is none. */
export function numberOf(typed: string): number | null {
  const plain = typed.trim().replace('\u2212', '-').replace(',', '.');
  if (!/^[+-]?(\d+(\.\d*)?|\.\d+)$/.test(plain)) return null;
  return Number(plain);
}

/** A length in metres: metres unless a unit is named; null when it is none. */
export function metresOf(typed: string): number | null {
  const bare = numberOf(typed);
  if (bare !== null) return bare;
  const mm = lengthMm(typed);
  return mm === null ? null : mm / 1000;
}
