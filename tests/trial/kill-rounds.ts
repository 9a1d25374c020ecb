import type { TrialContext, TrialPart, TrialResult } from './part.ts';
import { vitestRun } from './vitest-run.ts';

const MOST_ROUNDS = 200;
const ONE_ROUND_MS = 4000;

export const killRounds: TrialPart = {
  name: 'kill-rounds',
  what: 'kill -9 of receiver and board side in mid-stream',
  run(context: TrialContext): Promise<TrialResult> {
    const rounds = Math.max(
      10,
      Math.min(MOST_ROUNDS, Math.floor((context.untilMs - context.nowMs()) / ONE_ROUND_MS)),
    );
    const { ok, text } = vitestRun(
      'tests/day/kill.test.ts',
      { HEELWRIGHT_KILL_ROUNDS: `${rounds}`, HEELWRIGHT_FIRST_SEED: `${context.firstSeed}` },
      rounds * 20_000,
    );
    context.say(`${rounds} rounds ${ok ? 'held' : 'did not hold'}`);
    if (!ok) context.say(text.slice(-4000));
    return Promise.resolve({
      part: 'kill-rounds',
      commit: context.commit,
      seeds: [context.firstSeed, rounds],
      figures: { rounds: ok ? rounds : 0 },
      broken: ok ? [] : ['an acknowledged item was lost or doubled, or the day did not go on'],
    });
  },
};
