import type { TrialContext, TrialPart, TrialResult } from './part.ts';
import { vitestRun } from './vitest-run.ts';

const MOST_ROUNDS = 200;
const ONE_ROUND_MS = 8000;

export const linkRounds: TrialPart = {
  name: 'link-rounds',
  what: 'mishaps of the network in any order, one after another, on one day',
  run(context: TrialContext): Promise<TrialResult> {
    const rounds = Math.max(
      8,
      Math.min(MOST_ROUNDS, Math.floor((context.untilMs - context.nowMs()) / ONE_ROUND_MS)),
    );
    const { ok, text } = vitestRun(
      'tests/day/link.test.ts',
      { HEELWRIGHT_LINK_ROUNDS: `${rounds}`, HEELWRIGHT_FIRST_SEED: `${context.firstSeed}` },
      60_000 + rounds * 40_000,
    );
    context.say(`${rounds} rounds ${ok ? 'held' : 'did not hold'}`);
    if (!ok) context.say(text.slice(-4000));
    return Promise.resolve({
      part: 'link-rounds',
      commit: context.commit,
      seeds: [context.firstSeed, rounds],
      figures: { rounds: ok ? rounds : 0 },
      broken: ok ? [] : ['a sample was lost or doubled, or a link was not taken up again'],
    });
  },
};
