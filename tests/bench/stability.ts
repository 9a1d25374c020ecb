import { readFileSync } from 'node:fs';
import { atUpperKg } from '#core/limits/at-upper-kg.ts';
import { withChange } from '#core/limits/change.ts';
import { judgedPicture } from '#core/limits/judged-picture.ts';
import { limitingKgTable } from '#core/limits/limiting-kg.ts';
import { loadingInput, loadingOf } from '#core/stability/loading-input.ts';
import { ruleSetsNamed } from '#core/stability/rules/all-rule-sets.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';

export interface StabilityFigures {
  /** Ten displacements, each proven by its own cuts. */
  readonly limitingKgMs: number;
  /** A mass moved by a slider: the condition cut and judged anew, at the upper KG, milliseconds. */
  readonly whatIfMs: readonly number[];
  /** The same with every error of the weights followed. */
  readonly whatIfWithErrorsMs: readonly number[];
}

const DISPLACEMENTS_T = Array.from({ length: 10 }, (_, k) => 40 + 1.5 * k);
const SLIDER_STEPS = 40;

/** Limits and the skipper's question, of the demo vessel in her arrival condition. */
export function measureStability(): StabilityFigures {
  const file = new URL('../../device/emulated/marram-loading.json', import.meta.url);
  const input = loadingInput.parse(JSON.parse(readFileSync(file, 'utf8')));
  const sets = ruleSetsNamed(input.ruleSets);
  const { questions } = loadingOf(input, marramHull());
  const question = questions.find(({ kind }) => kind === 'arrival')!;
  const judging = { sets, signed: [] };
  const { loaded: _, ...ask } = question;
  const limits = { ask, slack: [], lightshipT: input.lightship.mass.value, sets };
  limitingKgTable(limits, [45], [0]);
  const from = performance.now();
  limitingKgTable(limits, DISPLACEMENTS_T, [0]);
  const limitingKgMs = performance.now() - from;
  const slid = (of: typeof question) =>
    Array.from({ length: SLIDER_STEPS }, (_, k) => {
      const at = { xM: 2.6, yM: 0.5, zM: 2.7 };
      const before = performance.now();
      judgedPicture(withChange(of, { act: 'add', what: 'bags', massT: 0.05 * k, at }), judging);
      return performance.now() - before;
    });
  return {
    limitingKgMs,
    whatIfMs: slid(atUpperKg(question)!),
    whatIfWithErrorsMs: slid(question),
  };
}
