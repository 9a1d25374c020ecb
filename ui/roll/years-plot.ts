import { roundStep } from '#core/report/line-plot.ts';
import type { SessionRoll } from '#core/session/session-roll.ts';

type Years = NonNullable<SessionRoll['years']>;

/** A test on the plot of her periods over the years: shares of width and height, from left and top. */
export interface YearMark {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  /** Ends of its 95 % interval. */
  readonly top: number;
  readonly bottom: number;
  /** Measured in the condition of the last one; others are drawn hollow. */
  readonly filled: boolean;
}

export interface YearsPlot {
  readonly marks: readonly YearMark[];
  readonly periodTicks: readonly { readonly periodS: number; readonly y: number }[];
  readonly decimals: number;
  readonly yearTicks: readonly { readonly year: number; readonly x: number }[];
}

const YEAR_MS = 365.25 * 86_400_000;
const MOST_YEAR_TICKS = 8;

/** Longer periods stand higher; time is to scale, so that a jump between two tests shows as one. */
export function yearsPlot({ points }: Years): YearsPlot {
  const times = points.map(({ date }) => Date.parse(date));
  const first = Math.min(...times) - 0.2 * YEAR_MS;
  const last = Math.max(...times) + 0.2 * YEAR_MS;
  const x = (ms: number) => (ms - first) / (last - first);
  const low = Math.min(...points.map((one) => one.periodS - one.halfWidth95S));
  const high = Math.max(...points.map((one) => one.periodS + one.halfWidth95S));
  const reach = Math.max(high - low, 0.02 * high);
  const from = (low + high) / 2 - 0.65 * reach;
  const y = (periodS: number) => 1 - (periodS - from) / (1.3 * reach);
  const step = roundStep(1.3 * reach, 4);
  const ticks = Math.floor((from + 1.3 * reach) / step) - Math.ceil(from / step) + 1;
  return {
    marks: points.map((one, k) => ({
      key: `${k}-${one.date}`,
      x: x(times[k]!),
      y: y(one.periodS),
      top: y(one.periodS + one.halfWidth95S),
      bottom: y(one.periodS - one.halfWidth95S),
      filled: one.sameCondition,
    })),
    periodTicks: Array.from({ length: ticks }, (_, k) => {
      const periodS = (Math.ceil(from / step) + k) * step;
      return { periodS, y: y(periodS) };
    }),
    decimals: Math.max(0, -Math.floor(Math.log10(step) + 1e-9)),
    yearTicks: yearsBetween(first, last).map((year) => ({ year, x: x(Date.UTC(year, 0, 1)) })),
  };
}

function yearsBetween(first: number, last: number): number[] {
  const from = new Date(first).getUTCFullYear() + 1;
  const to = new Date(last).getUTCFullYear();
  const every = Math.max(1, Math.ceil((to - from + 1) / MOST_YEAR_TICKS));
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, k) => from + k).filter(
    (year) => year % every === 0,
  );
}
