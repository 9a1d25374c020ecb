import type { TrialContext, TrialPart, TrialResult } from './part.ts';
import { vitestRun } from './vitest-run.ts';

const MESSAGES = 100_000;
/** A message and its answer, and two slow handshakes, on a busy machine. */
const MOST_MS = 15 * 60_000;

export const hostile: TrialPart = {
  name: 'hostile',
  what: 'hostile messages at every socket and role, and slow handshakes, beside a stream',
  run(context: TrialContext): Promise<TrialResult> {
    const { ok, text } = vitestRun(
      'tests/receiver/hostile.test.ts',
      {
        HEELWRIGHT_HOSTILE_MESSAGES: `${MESSAGES}`,
        HEELWRIGHT_FIRST_SEED: `${context.firstSeed}`,
      },
      MOST_MS,
    );
    context.say(`${MESSAGES} messages a route ${ok ? 'were answered' : 'were not all answered'}`);
    if (!ok) context.say(text.slice(-4000));
    return Promise.resolve({
      part: 'hostile',
      commit: context.commit,
      seeds: [context.firstSeed, 1],
      figures: { messagesARoute: ok ? MESSAGES : 0 },
      broken: ok ? [] : ['a hostile message was not answered with a code, or harmed the stream'],
    });
  },
};
