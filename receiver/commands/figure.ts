/** Figures as words, for the commands; nothing else in the receiver rounds. */

/** Decimals at which a half width shows two significant digits, none above ten. */
function decimalsOf(halfWidth: number): number {
  return Math.min(12, Math.max(0, 1 - Math.floor(Math.log10(halfWidth))));
}

/** `0.5527 ± 0.0031 m`: the half width with two digits, the value to the same place. */
export function measuredWords(value: number, halfWidth: number, unit: string): string {
  if (!(halfWidth > 0)) return `${significantWords(value, 7)} ${unit}, no uncertainty known`;
  // a slope's figure would begin with zeros
  if (Math.abs(value) < 1e-3) {
    const exponent = Math.floor(Math.log10(Math.abs(value)));
    const power = 10 ** exponent;
    return `(${measuredPair(value / power, halfWidth / power)}) × 10^${exponent} ${unit}`;
  }
  return `${measuredPair(value, halfWidth)} ${unit}`;
}

function measuredPair(value: number, halfWidth: number): string {
  const decimals = decimalsOf(halfWidth);
  return `${fixedWords(value, decimals)} ± ${halfWidth.toFixed(decimals)}`;
}

/** Fixed decimals without a minus before zero. */
export function fixedWords(value: number, decimals: number): string {
  const fixed = value.toFixed(decimals);
  return Number(fixed) === 0 ? fixed.replace('-', '') : fixed;
}

export function significantWords(value: number, digits: number): string {
  return String(Number(value.toPrecision(digits)));
}

/** A table with its columns aligned: the first to the left, the others to the right. */
export function tableWords(rows: readonly (readonly string[])[]): string[] {
  const columns = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, k) =>
    Math.max(...rows.map((row) => row[k]?.length ?? 0)),
  );
  return rows.map((row) =>
    row
      .map((cell, k) => (k === 0 ? cell.padEnd(widths[k]!) : cell.padStart(widths[k]!)))
      .join('  ')
      .trimEnd(),
  );
}
