import type { NotUsed, TakenReading } from '#core/steadiness/watch-types.ts';
import type { SteadinessLink } from './steadiness-link.ts';

/** What the live path needs of a watch, wherever it runs. */
export type WatchLink = Pick<
  SteadinessLink,
  'watch' | 'post' | 'askPicture' | 'takeReading' | 'close'
>;

/** Time that was rejected, and the lines there were when the run that rejected it began. */
export type Rejected = NotUsed & { readonly startedLines: number };

/** The period of a reading is no surer than the rates of the clocks it was timed by. */
export function withClockRate<T extends TakenReading>(reading: T, rateUncertainty: number): T {
  const { rollPeriodS, rollPeriodUncertaintyS } = reading;
  if (rollPeriodS === null || rollPeriodUncertaintyS === null) return reading;
  const clocksS = rollPeriodS * rateUncertainty;
  return { ...reading, rollPeriodUncertaintyS: Math.hypot(rollPeriodUncertaintyS, clocksS) };
}
