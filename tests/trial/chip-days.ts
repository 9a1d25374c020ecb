import type { TrialContext, TrialPart, TrialResult } from './part.ts';
import { vitestRun } from './vitest-run.ts';

/** Whole days through firmware, bus and link; one takes a minute or two of a core. */
const MOST_DAYS = 3;
const ONE_DAY_MS = 150_000;

export const chipDays: TrialPart = {
  name: 'chip-days',
  what: 'whole days at chip level, forty board minutes each',
  run(context: TrialContext): Promise<TrialResult> {
    const leftMs = context.untilMs - context.nowMs();
    const days = Math.max(1, Math.min(MOST_DAYS, Math.floor(leftMs / ONE_DAY_MS)));
    const { ok, text } = vitestRun(
      'tests/day/quiet-day-chips.test.ts',
      { HEELWRIGHT_CHIP_DAYS: `${days}`, HEELWRIGHT_FIRST_SEED: `${context.firstSeed}` },
      days * 500_000,
    );
    for (const line of text.match(/seed \d+: .*board minutes.*/g) ?? []) context.say(line);
    if (!ok) context.say(text.slice(-4000));
    return Promise.resolve({
      part: 'chip-days',
      commit: context.commit,
      seeds: [context.firstSeed, days],
      figures: { days, ok: ok ? days : 0 },
      broken: ok ? [] : ['a chip-level day lost a scan or missed its GM'],
    });
  },
};
