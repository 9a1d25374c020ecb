import type { TrialContext, TrialPart, TrialResult } from './part.ts';
import { vitestRun } from './vitest-run.ts';

const MOST_MESSAGES = 100_000;
const LEAST_MESSAGES = 5000;
/** One message of each route and its answer, and two slow handshakes, on a busy machine. */
const MS_A_MESSAGE = 4;
const MOST_MS = 20 * 60_000;

export const hostile: TrialPart = {
  name: 'hostile',
  what: 'hostile messages at every socket and role, and slow handshakes, beside a stream',
  run(context: TrialContext): Promise<TrialResult> {
    const left = Math.floor((context.untilMs - context.nowMs()) / MS_A_MESSAGE);
    const messages = Math.max(LEAST_MESSAGES, Math.min(MOST_MESSAGES, left));
    const { ok, text } = vitestRun(
      'tests/receiver/hostile',
      {
        HEELWRIGHT_HOSTILE_MESSAGES: `${messages}`,
        HEELWRIGHT_FIRST_SEED: `${context.firstSeed}`,
      },
      MOST_MS,
    );
    context.say(`${messages} messages a route ${ok ? 'were answered' : 'were not all answered'}`);
    if (!ok) context.say(text.slice(-4000));
    return Promise.resolve({
      part: 'hostile',
      commit: context.commit,
      seeds: [context.firstSeed, 1],
      figures: { messagesARoute: ok ? messages : 0 },
      broken: ok ? [] : ['a hostile message was not answered with a code, or harmed the stream'],
    });
  },
};
