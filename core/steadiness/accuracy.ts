import { meanSpreadDeg, type RollModel } from './roll-model.ts';

/** Under five roll periods nothing is called steady. */
export const STEADY_PERIODS = 5;
/** What was called out of reach is called reachable again only within this part of the time. */
const REACHABLE_AGAIN = 0.8;
const LOOK_AHEAD_STEP_S = 2;

export interface AccuracySettings {
  readonly targetStandardErrorDeg: number;
  readonly bestAfterS: number;
  readonly worstStandardErrorDeg: number;
}

export interface AccuracyNow {
  readonly standardErrorDeg: number;
  readonly countedS: number;
  readonly model: RollModel;
}

export type Outlook =
  /** Accurate enough, or will be after so many more counted seconds. */
  | { readonly kind: 'reachable'; readonly moreS: number }
  /** Never will be; the best is this, after so many more counted seconds. */
  | { readonly kind: 'best'; readonly moreS: number; readonly bestDeg: number }
  /** Not even that may be called steady. */
  | { readonly kind: 'too-wide'; readonly bestDeg: number };

/** The standard error after more counted seconds, as the model says a longer window is worth. */
export function standardErrorAfter(
  { standardErrorDeg, countedS, model }: AccuracyNow,
  moreS: number,
): number {
  const perSpread = standardErrorDeg / meanSpreadDeg(model, countedS);
  return perSpread * meanSpreadDeg(model, countedS + moreS);
}

/**
 * What counting on will buy: today's standard error, scaled as the model says a longer window is
 * worth. `wasOutOfReach`: what was said before, so that the word stands still.
 */
export function accuracyOutlook(
  now: AccuracyNow,
  settings: AccuracySettings,
  wasOutOfReach: boolean,
): Outlook {
  const { standardErrorDeg, countedS, model } = now;
  const { targetStandardErrorDeg, bestAfterS, worstStandardErrorDeg } = settings;
  if (standardErrorDeg <= targetStandardErrorDeg) return { kind: 'reachable', moreS: 0 };
  const perSpread = standardErrorDeg / meanSpreadDeg(model, countedS);
  const last = bestAfterS * (wasOutOfReach ? REACHABLE_AGAIN : 1);
  for (let windowS = countedS; windowS <= last; windowS += LOOK_AHEAD_STEP_S) {
    if (perSpread * meanSpreadDeg(model, windowS) <= targetStandardErrorDeg) {
      return { kind: 'reachable', moreS: windowS - countedS };
    }
  }
  const bestS = Math.max(bestAfterS, countedS);
  const bestDeg = perSpread * meanSpreadDeg(model, bestS);
  if (bestDeg > worstStandardErrorDeg) return { kind: 'too-wide', bestDeg };
  return { kind: 'best', moreS: bestS - countedS, bestDeg };
}
