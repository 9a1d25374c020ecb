import { hullAfloat } from '#core/flotation/hull-afloat.ts';
import { BOX_HULL, BOX_LENGTH_M } from '#tests/core/flotation/box-hull.ts';
import { drawnTestScore } from '#tests/support/drawn-test.ts';
import type { TrialContext, TrialPart, TrialResult } from './part.ts';

const NAME = 'coverage';
const AIM_TESTS = 4000;

/** Simulated tests with every input drawn anew from its stated law: is KG solid inside its own 95 % interval? */
export const coverage: TrialPart = {
  name: NAME,
  what: 'is the true KG solid inside its own 95 % interval, every input drawn from its law',
  table: coverageTable,
  async run(context: TrialContext): Promise<TrialResult> {
    const hull = hullAfloat(BOX_HULL, BOX_LENGTH_M);
    let tests = 0;
    let inside = 0;
    let squares = 0;
    let widths = 0;
    while (tests < AIM_TESTS && context.nowMs() < context.untilMs) {
      const drawn = drawnTestScore(context.firstSeed + tests, hull);
      tests += 1;
      if (drawn.inside) inside += 1;
      squares += drawn.errorMm ** 2;
      widths += drawn.halfWidthMm ** 2;
    }
    context.say(`${inside} of ${tests} inside (${((100 * inside) / tests).toFixed(2)} %)`);
    return {
      part: NAME,
      commit: context.commit,
      seeds: [context.firstSeed, tests],
      figures: { tests, inside, squaresMm2: squares, widthSquaresMm2: widths },
      broken: [],
    };
  },
};

/** What the accumulated tests say beside what is aimed at. */
function coverageTable(results: readonly TrialResult[]): string {
  const own = results.filter((line) => line.part === NAME);
  const sum = (name: string) =>
    own.reduce((total, line) => total + Number(line.figures[name] ?? 0), 0);
  const tests = sum('tests');
  if (tests === 0) return '  no drawn tests yet';
  const percent = ((100 * sum('inside')) / tests).toFixed(2);
  const error = Math.sqrt(sum('squaresMm2') / tests).toFixed(2);
  const width = Math.sqrt(sum('widthSquaresMm2') / tests).toFixed(2);
  return `  KG solid inside its own 95 % interval  ${percent} % of ${tests} drawn tests (aim 93.5 to 96.5 % of ${AIM_TESTS}); error ${error} mm, half width ${width} mm (root mean squares)`;
}
