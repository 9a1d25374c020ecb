import { Fault } from '#core/fault/fault.ts';
import type { RollRunLine } from '#core/record/roll-line.ts';
import { lookForRoll, type RollFound } from '#core/reduction/roll-look.ts';
import type { SessionState } from '#core/session/session.ts';
import { quickOnes, type RollSampleGroup, RollSamples } from './roll-samples.ts';

/** Looks for the runs of a roll test once more, in the samples as they stood when it was asked for. */
export class RollAgain {
  readonly #samples = new RollSamples();
  /** What one act found becomes some lines: looked for once. */
  #found: { readonly asked: string; readonly found: readonly RollFound[] } | null = null;

  add(group: RollSampleGroup): void {
    this.#samples.add(group);
  }

  /** What is otherwise than a line says, in words; null: the same run in every figure. */
  difference(line: RollRunLine, session: Pick<SessionState, 'mountings'>): string | null {
    const { taken, ...said } = line;
    if (taken === undefined) return 'it does not say which lines it was taken of';
    try {
      const found = this.#look(taken, session);
      const same = found.find(({ run }) => run.fromS === said.run.fromS);
      if (same === undefined) return `its blocks give no run from ${said.run.fromS} s`;
      if (textOf(same) === textOf(said)) return null;
      const { periodS, refused } = same.run;
      return `its blocks give ${periodS.value} s by ${same.instrument}, ${refused?.reason ?? 'free roll'}`;
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      return `no run is found: ${error.report.found}`;
    }
  }

  #look(
    { marked, afterS, afterLines }: NonNullable<RollRunLine['taken']>,
    session: Pick<SessionState, 'mountings'>,
  ): readonly RollFound[] {
    const asked = JSON.stringify([marked, afterS, afterLines]);
    if (this.#found?.asked !== asked) {
      const instruments = this.#samples.of(quickOnes(session));
      const found = lookForRoll(instruments, marked, afterS ?? Number.NEGATIVE_INFINITY);
      this.#found = { asked, found };
    }
    return this.#found.found;
  }
}

/** With keys in one order, as JSON gives every number back as it was. */
function textOf(run: Omit<RollRunLine, 'taken'>): string {
  return JSON.stringify(run, (_, value: unknown) =>
    value !== null && typeof value === 'object' && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );
}
