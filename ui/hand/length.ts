/** A typed length in millimetres. Millimetres unless a unit is named; comma or point; true minus too. */
const UNITS_MM: Readonly<Record<string, number>> = {
  '': 1,
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  '"': 25.4,
  ft: 304.8,
};

/** Null when it is not a length; nothing is guessed. */
export function lengthMm(typed: string): number | null {
  const said = /^([+\-\u2212]?)(\d+(?:[.,]\d*)?|[.,]\d+)\s*([a-z"]*)$/.exec(
    typed.trim().toLowerCase(),
  );
  if (said === null) return null;
  const [, sign = '', digits = '', unit = ''] = said;
  const factor = UNITS_MM[unit];
  if (factor === undefined) return null;
  const size = Number(digits.replace(',', '.')) * factor;
  return sign === '' || sign === '+' ? size : -size;
}
