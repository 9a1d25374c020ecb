import { NoReading, VirtualDay } from '#tests/support/day.ts';
import { CAUSE_OF, PLANTED, type Planted, plantedSource } from '#tests/support/planted-day.ts';
import type { TrialContext, TrialPart, TrialResult } from './part.ts';

const NAME = 'causes';
const SEEDS_EACH = 200;

/** Whole days at sample level with one cause planted: is it among the first two named? Clean days name nothing. */
export const causes: TrialPart = {
  name: NAME,
  what: 'whole days at sample level with one cause planted: which is named',
  table: causesTable,
  async run(context: TrialContext): Promise<TrialResult> {
    const figures: Record<string, number> = {};
    const count = (name: string) => {
      figures[name] = (figures[name] ?? 0) + 1;
    };
    let seed = context.firstSeed;
    for (; seed < context.firstSeed + SEEDS_EACH; seed++) {
      if (context.nowMs() >= context.untilMs) break;
      for (const planted of [null, ...PLANTED]) await countDay(seed, planted, count);
    }
    context.say(`${seed - context.firstSeed} days of each`);
    return {
      part: NAME,
      commit: context.commit,
      seeds: [context.firstSeed, seed - context.firstSeed],
      figures,
      broken: [],
    };
  },
};

async function countDay(seed: number, planted: Planted | null, count: (name: string) => void) {
  const name = planted ?? 'nothing';
  try {
    const { result } = await new VirtualDay(plantedSource(seed, planted)).run();
    const named = result.diagnosis?.causes ?? [];
    count(`${name} > ${named[0]?.cause ?? 'none'}`);
    const wanted = planted === null ? null : CAUSE_OF[planted];
    if (named.slice(0, 2).some(({ cause }) => cause === wanted)) count(`${name} > first two`);
  } catch (error) {
    if (!(error instanceof NoReading)) throw error;
    count(`${name} > no reading`);
  }
}

/** Rows: what was planted; columns: what was named first, per cent of the days with a result. */
function causesTable(results: readonly TrialResult[]): string {
  const own = results.filter((line) => line.part === NAME);
  const sum = (name: string) =>
    own.reduce((total, line) => total + Number(line.figures[name] ?? 0), 0);
  const keys = [...new Set(own.flatMap(({ figures }) => Object.keys(figures)))];
  const rows = (['nothing', ...PLANTED] as const).map((name) => {
    const firsts = keys
      .filter((key) => key.startsWith(`${name} > `) && !/first two|no reading/.test(key))
      .map((key) => ({ named: key.slice(name.length + 3), days: sum(key) }))
      .sort((left, right) => right.days - left.days);
    const days = firsts.reduce((total, one) => total + one.days, 0);
    const percent = (part: number) => ((100 * part) / Math.max(1, days)).toFixed(1);
    const cells = firsts.map(({ named, days: part }) => `${named} ${percent(part)}`).join(', ');
    const two =
      name === 'nothing'
        ? ' '.repeat(15)
        : `${percent(sum(`${name} > first two`)).padStart(5)} in two   `;
    return `  ${name.padEnd(18)}${two}first: ${cells}  (of ${days}, ${sum(`${name} > no reading`)} more not read)`;
  });
  const all = PLANTED.reduce(
    (total, name) => {
      const days = keys
        .filter((key) => key.startsWith(`${name} > `) && !/first two|no reading/.test(key))
        .reduce((part, key) => part + sum(key), 0);
      return { days: total.days + days, hit: total.hit + sum(`${name} > first two`) };
    },
    { days: 0, hit: 0 },
  );
  const share = ((100 * all.hit) / Math.max(1, all.days)).toFixed(1);
  return [...rows, `  right cause among the first two ${share} % of ${all.days} (aim 90)`].join(
    '\n',
  );
}
