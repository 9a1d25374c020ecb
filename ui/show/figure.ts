import { type Figure, figure, fixed, UNKNOWN } from '#core/report/figure.ts';

export { type Figure, figure, fixed, signed, UNKNOWN } from '#core/report/figure.ts';

/** A number without a ±, found or a limit, in three significant digits. */
export function figurePlain(value: number): string {
  const size = Math.abs(value);
  if (size === 0 || Number.isInteger(value)) return fixed(value, 0);
  return fixed(value, Math.max(0, 2 - Math.floor(Math.log10(size))));
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
