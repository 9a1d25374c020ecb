import { NoReading, VirtualDay } from '#tests/support/day.ts';
import { kindOfDay } from '#tests/support/day-kinds.ts';
import { scoreOfDay } from '#tests/support/day-score.ts';
import { sampleSource } from '#tests/support/sample-source.ts';

/** A quiet day whose own standard uncertainty is under this share of GM ... */
const SURE_SHARE = 0.0035;
/** ... should be within this share of the truth. */
const NEAR_SHARE = 0.01;

/** Counts that add up over days. */
export interface DayCounts {
  days: number;
  inside: number;
  quiet: number;
  quietSure: number;
  quietSureNear: number;
  /** Quiet days in whose plot a shape was named by chance. */
  troubleOnQuiet: number;
  /** Rough days the watch offered no reading on. */
  givenUp: number;
}

export const NO_DAYS: DayCounts = {
  days: 0,
  inside: 0,
  quiet: 0,
  quietSure: 0,
  quietSureNear: 0,
  troubleOnQuiet: 0,
  givenUp: 0,
};

/** One whole day at sample level, counted. Throws when a day that should gives no GM. */
export async function countDay(seed: number, count: DayCounts): Promise<void> {
  const kind = kindOfDay(seed);
  try {
    const day = await new VirtualDay(sampleSource(seed, kind.disturbances, kind.fromState)).run();
    const score = scoreOfDay(day);
    count.days++;
    if (score.inside) count.inside++;
    if (kind.name !== 'quiet') return;
    count.quiet++;
    if (day.result.diagnosis?.troubleSeen === true) count.troubleOnQuiet++;
    if (score.relativeUncertainty >= SURE_SHARE) return;
    count.quietSure++;
    if (Math.abs(score.relativeError) < NEAR_SHARE) count.quietSureNear++;
  } catch (error) {
    if (!(error instanceof NoReading) || !kind.mayBeGivenUp)
      throw new Error(`seed ${seed} (${kind.name}): ${(error as Error).message}`);
    count.givenUp++;
  }
}
