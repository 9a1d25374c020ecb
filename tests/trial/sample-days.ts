import { once } from 'node:events';
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { type DayCounts, NO_DAYS } from './day-counts.ts';
import type { TrialContext, TrialPart, TrialResult } from './part.ts';
import type { DaysAsked, DaysDone } from './sample-days-worker.ts';

const NAME = 'sample-days';

/** Whole days at sample level with seeds of their own, a thread a core; the counts add up over slices. */
export const sampleDays: TrialPart = {
  name: NAME,
  what: 'whole days at sample level: is GM inside its own 95 % interval',
  async run(context: TrialContext): Promise<TrialResult> {
    const threads = Math.max(1, availableParallelism());
    const done = await Promise.all(
      Array.from({ length: threads }, (_, thread) =>
        daysOf({
          firstSeed: context.firstSeed + thread,
          step: threads,
          untilMs: context.untilMs,
        }),
      ),
    );
    const count = { ...NO_DAYS };
    for (const one of done)
      for (const name of Object.keys(count) as (keyof DayCounts)[]) count[name] += one.count[name];
    context.say(`${count.days} days, ${count.inside} inside, ${count.givenUp} given up`);
    return {
      part: NAME,
      commit: context.commit,
      // The threads end within a day of each other: seeds up to the last one begun are used up.
      seeds: [context.firstSeed, Math.max(...done.map(({ seeds }) => seeds)) * threads],
      figures: { ...count },
      broken: done.flatMap(({ broken }) => broken),
    };
  },
  table: sampleDaysTable,
};

async function daysOf(asked: DaysAsked): Promise<DaysDone> {
  const folder = process.env['HEELWRIGHT_PROGRAMS'];
  if (folder === undefined) throw new Error('the programs were not built');
  const worker = new Worker(`${folder}/sample-days-worker.mjs`, { workerData: asked });
  const [done] = (await once(worker, 'message')) as [DaysDone];
  return done;
}

/** What the accumulated days say beside what is aimed at. */
function sampleDaysTable(results: readonly TrialResult[]): string {
  const sum = (name: keyof DayCounts): number =>
    results
      .filter((line) => line.part === NAME)
      .reduce((total, line) => total + Number(line.figures[name] ?? 0), 0);
  const percent = (part: keyof DayCounts, whole: keyof DayCounts): string =>
    sum(whole) === 0 ? '-' : `${((100 * sum(part)) / sum(whole)).toFixed(2)} % of ${sum(whole)}`;
  return [
    `  days                                               ${sum('days')} (aim 2500), ${sum('givenUp')} more given up for want of a reading`,
    `  GM inside its own 95 % interval                    ${percent('inside', 'days')} (aim 93.5 to 96.5 %)`,
    `  quiet and sure (u < 0.35 %) days within 1 % of GM  ${percent('quietSureNear', 'quietSure')} (aim 97 % or more)`,
    `  quiet days with a shape named by chance            ${percent('troubleOnQuiet', 'quiet')} (set to 6 %)`,
  ].join('\n');
}
