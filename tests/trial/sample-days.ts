import { VirtualDay } from '#tests/support/day.ts';
import { kindOfDay } from '#tests/support/day-kinds.ts';
import { scoreOfDay } from '#tests/support/day-score.ts';
import { sampleSource } from '#tests/support/sample-source.ts';
import type { TrialContext, TrialPart, TrialResult } from './part.ts';

const NAME = 'sample-days';
/** A quiet day whose own standard uncertainty is under this share of GM ... */
const SURE_SHARE = 0.0035;
/** ... should be within this share of the truth. */
const NEAR_SHARE = 0.01;

/** Whole days at sample level with seeds of their own; the counts add up over slices. */
export const sampleDays: TrialPart = {
  name: NAME,
  what: 'whole days at sample level: is GM inside its own 95 % interval',
  async run(context: TrialContext): Promise<TrialResult> {
    const count = { days: 0, inside: 0, quietSure: 0, quietSureNear: 0, noGm: 0 };
    const broken: string[] = [];
    let seed = context.firstSeed;
    for (; context.nowMs() < context.untilMs; seed++) {
      const kind = kindOfDay(seed);
      try {
        const score = scoreOfDay(await new VirtualDay(sampleSource(seed, kind.disturbances)).run());
        count.days++;
        if (score.inside) count.inside++;
        if (kind.name === 'quiet' && score.relativeUncertainty < SURE_SHARE) {
          count.quietSure++;
          if (Math.abs(score.relativeError) < NEAR_SHARE) count.quietSureNear++;
        }
      } catch (error) {
        count.noGm++;
        context.say(`seed ${seed} (${kind.name}) gave no GM: ${(error as Error).message}`);
      }
    }
    context.say(`${count.days} days, ${count.inside} inside, ${count.noGm} without GM`);
    return {
      part: NAME,
      commit: context.commit,
      seeds: [context.firstSeed, seed - context.firstSeed],
      figures: count,
      broken,
    };
  },
};

/** What the accumulated days say beside what is aimed at. */
export function sampleDaysTable(results: readonly TrialResult[]): string {
  const sum = (name: string): number =>
    results
      .filter((line) => line.part === NAME)
      .reduce((total, line) => total + Number(line.figures[name] ?? 0), 0);
  const percent = (part: number, whole: number): string =>
    whole === 0 ? '-' : `${((100 * part) / whole).toFixed(2)} %`;
  return [
    `  days                                              ${sum('days')} (aim 2500), ${sum('noGm')} gave no GM`,
    `  GM inside its own 95 % interval                   ${percent(sum('inside'), sum('days'))} (aim 93.5 to 96.5 %)`,
    `  quiet and sure (u < 0.35 %) days within 1 % of GM  ${percent(sum('quietSureNear'), sum('quietSure'))} of ${sum('quietSure')} (aim 97 % or more)`,
  ].join('\n');
}
