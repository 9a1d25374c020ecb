import { diagnosedShape, SHAPES, TIMES_ITS_ERROR } from '#tests/support/shaped-test.ts';
import type { TrialContext, TrialPart, TrialResult } from './part.ts';

const NAME = 'shapes';
const SEEDS_EACH = 200;
const CLEAN = 1000;

/** One shape in each test: which is named first; and how often a good test is left in peace. */
export const shapes: TrialPart = {
  name: NAME,
  what: `one shape at ${TIMES_ITS_ERROR} times its own standard error: which is named first`,
  table: shapesTable,
  async run(context: TrialContext): Promise<TrialResult> {
    const figures: Record<string, number> = {};
    const count = (name: string) => {
      figures[name] = (figures[name] ?? 0) + 1;
    };
    let seed = context.firstSeed;
    const last = seed + CLEAN;
    for (; seed < last && context.nowMs() < context.untilMs; seed++) {
      count('clean');
      if (!diagnosedShape(null, seed).troubleSeen) count('leftInPeace');
      if (seed - context.firstSeed >= SEEDS_EACH) continue;
      for (const shape of SHAPES) {
        const first = diagnosedShape(shape, seed).shapes[0]!;
        count(`${shape} > ${first.shape}`);
        if (first.shape === shape && first.seen) count(`${shape} > seen`);
      }
    }
    context.say(
      `${figures['leftInPeace'] ?? 0} of ${figures['clean'] ?? 0} good tests left in peace`,
    );
    return {
      part: NAME,
      commit: context.commit,
      seeds: [context.firstSeed, seed - context.firstSeed],
      figures,
      broken: [],
    };
  },
};

/** The confusion table of all slices: rows are the shape put in, columns the one named first, per cent. */
function shapesTable(results: readonly TrialResult[]): string {
  const own = results.filter((line) => line.part === NAME);
  const sum = (name: string) =>
    own.reduce((total, line) => total + Number(line.figures[name] ?? 0), 0);
  const clean = sum('clean');
  if (clean === 0) return '  no tests yet';
  const percent = (part: number, whole: number) => ((100 * part) / Math.max(1, whole)).toFixed(1);
  const rows = SHAPES.map((shape) => {
    const whole = SHAPES.reduce((total, named) => total + sum(`${shape} > ${named}`), 0);
    const cells = SHAPES.map((named) => percent(sum(`${shape} > ${named}`), whole).padStart(6));
    const seen = percent(sum(`${shape} > seen`), whole).padStart(6);
    return `  ${shape.padEnd(24)}${cells.join('')}  certain ${seen}  of ${whole}`;
  });
  const head = SHAPES.map((_, k) => String(k + 1).padStart(6)).join('');
  return [
    `  named first, per cent    ${head}  (columns in the order of the rows; aim 90 on the diagonal)`,
    ...rows,
    `  good tests left in peace  ${percent(sum('leftInPeace'), clean)} % of ${clean} (aim 93 % or more)`,
  ].join('\n');
}
