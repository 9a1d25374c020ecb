/**
 * Numbers for people: the only place where anything is rounded. A value stops where its
 * uncertainty stops; the ± has two significant digits at most.
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

export type Side = 'port' | 'starboard' | 'upright';

/** Heel positive starboard down, as a figure without sign and the side it is to. */
export function heelFigure(heelDeg: number, halfWidthDeg: number): Figure & { side: Side } {
  const shown = figure(Math.abs(heelDeg), halfWidthDeg, { twoDigitsBelow: 2, mostDecimals: 3 });
  return { ...shown, side: Number(shown.value) === 0 ? 'upright' : sideOf(heelDeg) };
}

export function sideOf(value: number): Side {
  if (value === 0) return 'upright';
  return value > 0 ? 'starboard' : 'port';
}

/** Time of day of an ISO instant, in the zone of the person reading. */
export function clockTime(wall: string, withSeconds = true): string {
  const at = new Date(wall);
  if (Number.isNaN(at.getTime())) return UNKNOWN;
  const two = (part: number) => `${part}`.padStart(2, '0');
  const minutes = `${two(at.getHours())}:${two(at.getMinutes())}`;
  return withSeconds ? `${minutes}:${two(at.getSeconds())}` : minutes;
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

export function calendarDay(wall: string): string {
  const at = new Date(wall);
  if (Number.isNaN(at.getTime())) return UNKNOWN;
  return `${at.getDate()} ${MONTHS[at.getMonth()]} ${at.getFullYear()}`;
}

/** A pace in as many digits as anybody wants of it. */
export function paceWords(pace: number): string {
  return fixed(pace, pace < 10 && Math.abs(pace - Math.round(pace)) >= 0.05 ? 1 : 0);
}

export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Whole seconds up to two minutes, then minutes: nobody counts 431 seconds. */
export function duration(seconds: number): string {
  if (seconds < 1) return 'under 1 s';
  const whole = Math.round(seconds);
  return whole < 120 ? `${whole} s` : `${Math.round(whole / 60)} min`;
}
