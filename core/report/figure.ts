/**
 * Numbers for people, on screens and on paper: the only place where anything is rounded. A value
 * stops where its uncertainty stops; the ± has two significant digits at most.
 */
const MINUS = '\u2212';
export const UNKNOWN = '\u2013';

export interface Figure {
  readonly value: string;
  /** Without the sign ±; null when no uncertainty is known. */
  readonly plusMinus: string | null;
}

/** Fixed decimals with a true minus; zero has no sign. */
export function fixed(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? MINUS + text : text;
}

/** As `fixed`, with a plus before what is not negative: for left-overs and changes. */
export function signed(value: number, decimals: number): string {
  const text = fixed(value, decimals);
  return text.startsWith(MINUS) || Number(text) === 0 ? text : `+${text}`;
}

export interface FigureOptions {
  /** A leading part of the ± below this has two digits: 2 for heel, 4 for results. */
  readonly twoDigitsBelow?: number;
  readonly mostDecimals?: number;
}

/** A value and half the width of its 95 % interval, both cut at the place the latter allows. */
export function figure(value: number, halfWidth: number, options: FigureOptions = {}): Figure {
  if (!Number.isFinite(value)) return { value: UNKNOWN, plusMinus: null };
  if (!Number.isFinite(halfWidth) || halfWidth <= 0) {
    return { value: UNKNOWN, plusMinus: null };
  }
  const { twoDigitsBelow = 4, mostDecimals = 5 } = options;
  let exponent = Math.floor(Math.log10(halfWidth));
  if (Math.round(halfWidth / 10 ** exponent) >= 10) exponent += 1;
  const digits = halfWidth / 10 ** exponent < twoDigitsBelow - 0.05 ? 2 : 1;
  const place = Math.max(exponent - digits + 1, -mostDecimals);
  const decimals = Math.max(0, -place);
  const unit = 10 ** place;
  const shown = Math.max(1, Math.round(halfWidth / unit)) * unit;
  return {
    value: fixed(Math.round(value / unit) * unit, decimals),
    plusMinus: fixed(shown, decimals),
  };
}

/** `0.946 ± 0.004 m`; where no uncertainty is known, the value in so many digits as `digits` and that said. */
export function measured(
  value: number,
  halfWidth: number,
  unit: string,
  options: FigureOptions & { readonly digits?: number } = {},
): string {
  const shown = figure(value, halfWidth, { mostDecimals: 9, ...options });
  const after = unit === '' ? '' : ` ${unit}`;
  if (shown.plusMinus === null)
    return `${significant(value, options.digits ?? 5)}${after}, no uncertainty stated`;
  return `${shown.value} ± ${shown.plusMinus}${after}`;
}

/** So many significant digits and no trailing zeros, with a true minus; what was typed stays as typed. */
export function significant(value: number, digits: number): string {
  if (!Number.isFinite(value)) return UNKNOWN;
  return String(Number(value.toPrecision(digits))).replace('-', MINUS);
}
