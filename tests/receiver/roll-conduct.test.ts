import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { RollFound } from '#core/reduction/roll-look.ts';
import type { SessionState } from '#core/session/session.ts';
import { RollConduct } from '#receiver/roll-conduct.ts';
import { aDay } from '#tests/core/session/a-day.ts';
import { EARLIER_ROLL, ROLL_RUN } from '#tests/support/roll-run-body.ts';

const WHO = { author: 'E. Thorne', role: 'architect' } as const;
const run = (fromS: number, toS: number, more: Partial<RollFound['run']> = {}): RollFound => ({
  ...ROLL_RUN,
  run: { ...ROLL_RUN.run, fromS, toS, ...more },
});

function dock(found: RollFound[], change: Partial<SessionState> = {}, nowS = 1000) {
  const day: SessionState = { ...aDay(), ...change };
  const lines: { kind: string; body: unknown }[] = [];
  const asked: unknown[] = [];
  const conduct = new RollConduct({
    record: {
      clock: { monotonicS: () => nowS, wallMs: () => 0 },
      append: (kind: string, body: unknown) => {
        lines.push({ kind, body });
        return {} as never;
      },
    },
    session: () => day,
    taken: () => ({ startedLines: 3, afterLines: 70 }),
    look: (task) => {
      asked.push(task);
      return Promise.resolve(found);
    },
  });
  const refusal = async (act: Parameters<typeof conduct.act>[0]) => {
    try {
      await conduct.act(act, WHO);
      return null;
    } catch (error) {
      if (error instanceof Fault) return error.report;
      throw error;
    }
  };
  return { lines, asked, refusal };
}

const LOOK = { kind: 'look-for-roll', marked: null } as const;
const recorded: SessionState['rollRuns'] = [
  {
    written: { line: 40, wall: '', receiverS: 150, author: 'E', role: 'architect' },
    rolled: run(100, 140),
    refused: null,
  },
];

describe('a roll test conducted', () => {
  it('writes each run found, with who asked, and asks only after the last one', async () => {
    const found = [run(200, 240), run(300, 340)];
    const { lines, asked, refusal } = dock(found, { rollRuns: recorded });
    expect(await refusal(LOOK)).toBeNull();
    expect(lines.map(({ kind }) => kind)).toEqual(['roll-run', 'roll-run']);
    // Which lines it was looked for in stands beside it, so that anyone can look again.
    const taken = { startedLines: 3, afterLines: 70, marked: null, afterS: 140 };
    expect(lines[0]!.body).toEqual({ ...found[0], taken });
    expect(asked).toEqual([{ mark: null, afterS: 140 }]);
  });

  it('keeps forced rolling as a refused run, but not every little movement', async () => {
    const refused = { reason: 'not-decaying', words: 'driven' } as const;
    const found = [run(200, 240, { refused }), run(300, 340, { refused, amplitudeFromDeg: 0.1 })];
    const { lines, refusal } = dock(found);
    expect(await refusal(LOOK)).toBeNull();
    expect(lines).toHaveLength(1);
  });

  it('waits until she rolls no more', async () => {
    const { lines, refusal } = dock([run(960, 997)]);
    expect(await refusal(LOOK)).toMatchObject({
      code: 'roll-not-found',
      found: 'she is still rolling',
    });
    expect(lines).toEqual([]);
    expect(await dock([]).refusal(LOOK)).toMatchObject({ code: 'roll-not-found' });
  });

  it('refuses what overlaps a run in force, and acts out of turn', async () => {
    const marked = { kind: 'look-for-roll', marked: { fromS: 90, toS: 150 } } as const;
    const { refusal } = dock([run(110, 150)], { rollRuns: recorded });
    expect(await refusal(marked)).toMatchObject({ code: 'input-contradiction' });
    const landing = dock([], { awaits: 'landing' });
    expect(await landing.refusal(LOOK)).toMatchObject({ code: 'act-not-now' });
    expect(await dock([], { test: null }).refusal(LOOK)).toMatchObject({ code: 'act-not-now' });
  });

  it('leaves a run out for a reason, once', async () => {
    const refuse = { kind: 'refuse-roll-run', line: 40, reason: 'people ran on' } as const;
    const { lines, refusal } = dock([], { rollRuns: recorded });
    expect(await refusal(refuse)).toBeNull();
    expect(lines).toEqual([
      { kind: 'roll-run-refused', body: { line: 40, reason: 'people ran on' } },
    ]);
    expect(await refusal({ ...refuse, line: 41 })).toMatchObject({ code: 'act-not-now' });
  });

  it('writes in which condition she rolls and her earlier tests, of her own beam only', async () => {
    const { lines, refusal } = dock([]);
    const told = { condition: 'as inclined', draughtM: 1.9, earlier: [EARLIER_ROLL] };
    expect(await refusal({ kind: 'tell-roll-condition', told })).toBeNull();
    const other = { ...told, earlier: [{ ...EARLIER_ROLL, beamM: 5.4 }] };
    expect(await refusal({ kind: 'tell-roll-condition', told: other })).toMatchObject({
      code: 'input-contradiction',
    });
    expect(lines).toEqual([{ kind: 'roll-condition', body: told }]);
  });
});
