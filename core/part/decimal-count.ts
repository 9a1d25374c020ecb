/** Nine places hold a millionth of a thousandth of a degree and leave 180 degrees a safe integer. */
export const DECIMAL_PLACES = 9;
/** A count is value times 10^9. */
export const DECIMAL_SCALE = 1e-9;

/** A number printed in decimals, as the whole number of its last place. */
export interface DecimalCount {
  /** The value times 10^9, exactly. */
  readonly count: number;
  /** Places printed after the point: what the text can tell apart is 10 to the minus this. */
  readonly places: number;
}

/**
 * Reads plain decimals (`-1.034`, `+02.9`, `.5`; no exponent, no blank) without passing through a
 * binary fraction, so that nothing is rounded. Null for any other text, for more than nine places
 * that are not zero, and for numbers too large to be exact.
 */
export function countOfDecimal(text: string): DecimalCount | null {
  const match = /^([+-]?)(\d*)(?:\.(\d*))?$/.exec(text);
  const [, sign = '', whole = '', fraction = ''] = match ?? [];
  if (match === null || whole.length + fraction.length === 0) return null;
  const beyond = fraction.slice(DECIMAL_PLACES);
  if (/[1-9]/.test(beyond)) return null;
  const digits = whole + fraction.slice(0, DECIMAL_PLACES).padEnd(DECIMAL_PLACES, '0');
  const magnitude = Number(digits);
  if (!Number.isSafeInteger(magnitude)) return null;
  return {
    count: sign === '-' && magnitude !== 0 ? -magnitude : magnitude,
    places: fraction.length,
  };
}
