import type { TrialContext, TrialPart, TrialResult } from './part.ts';
import { vitestRun } from './vitest-run.ts';

const MOST_MINUTES = 480;
const LEAST_MINUTES = 20;
const CHIP_MINUTES = 10;
/** Day minutes to one of the wall, with room for opening, replay and a slower machine. */
const PACE_COUNTED_ON = 50;
/** For the ten minutes at chip level, and what is done with the record after. */
const BESIDE_MS = 330_000;

/** Eight hours where the slice has about sixteen minutes, less where it has not. */
export const soak: TrialPart = {
  name: 'soak',
  what: 'a long day of three boards, ten screens and pulled cables; then ten minutes of chips',
  run(context: TrialContext): Promise<TrialResult> {
    const leftMs = context.untilMs - context.nowMs() - BESIDE_MS;
    const room = Math.floor((leftMs / 60_000) * PACE_COUNTED_ON);
    const minutes = Math.max(LEAST_MINUTES, Math.min(MOST_MINUTES, room));
    const { ok, text } = vitestRun(
      'tests/day/soak.test.ts',
      {
        HEELWRIGHT_SOAK_MINUTES: `${minutes}`,
        HEELWRIGHT_SOAK_CHIP_MINUTES: `${CHIP_MINUTES}`,
        HEELWRIGHT_FIRST_SEED: `${context.firstSeed}`,
      },
      200_000 + minutes * 4000 + CHIP_MINUTES * 40_000,
    );
    const said = text.match(/^ *soak.*$/gm) ?? [];
    for (const line of said) context.say(line.trim());
    if (!ok) context.say(text.slice(-4000));
    return Promise.resolve({
      part: 'soak',
      commit: context.commit,
      seeds: [context.firstSeed, 1],
      figures: {
        minutes: ok ? minutes : 0,
        chipMinutes: ok ? CHIP_MINUTES : 0,
        said: said.join('; '),
      },
      broken: ok ? [] : ['a long day lost something, grew, or folds to another state'],
    });
  },
};
