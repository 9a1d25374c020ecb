import type { HeelFilter } from './heel-filter.ts';
import { BLOCK_S, meanSpreadDeg, type RollModel } from './roll-model.ts';

/** How far the heel lies off the heel counted before, and how far it may by rolling alone. */
export interface OffLevel {
  readonly offDeg: number;
  readonly mayDeg: number;
}

/** Spreads of the mean of two periods that still pass for rolling. */
const OFF_LEVEL_SPREADS = 2.5;

/** Of the last two roll periods, used or not; null where a block of them is missing. */
export function offLevelOf(
  model: RollModel,
  counted: Pick<HeelFilter, 'heelDeg' | 'variance'>,
  heelDeg: readonly number[],
): OffLevel | null {
  const blocks = Math.round((2 * model.periodS) / BLOCK_S);
  const recent = heelDeg.slice(-blocks).filter((value) => !Number.isNaN(value));
  if (recent.length < blocks) return null;
  const mean = recent.reduce((sum, value) => sum + value, 0) / blocks;
  const mayDeg =
    OFF_LEVEL_SPREADS *
    Math.hypot(meanSpreadDeg(model, blocks * BLOCK_S), Math.sqrt(counted.variance));
  return { offDeg: mean - counted.heelDeg, mayDeg };
}
