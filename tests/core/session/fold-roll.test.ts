import { describe, expect, it } from 'vitest';
import type { Line } from '#core/record/line.ts';
import { rollRunsAfter } from '#core/session/fold-roll.ts';
import { ROLL_RUN } from '../../support/roll-run-body.ts';

type RollLine = Extract<Line, { kind: 'roll-run' | 'roll-run-refused' }>;

function line(n: number, part: Pick<RollLine, 'kind' | 'body'>): RollLine {
  const rest = { n, v: 1, prev: '0'.repeat(64), wall: '2026-05-02T10:00:00Z', receiverS: n };
  return { ...rest, author: 'A. Rowan', role: 'architect', ...part } as RollLine;
}
const run = (n: number) => line(n, { kind: 'roll-run', body: ROLL_RUN });
const refusal = (n: number, of: number) =>
  line(n, { kind: 'roll-run-refused', body: { line: of, reason: 'people ran' } });

describe('runs of a roll test in the session', () => {
  it('stand in order, and keep standing when a person leaves one out', () => {
    const runs = [run(4), run(5), refusal(6, 4)].reduce(rollRunsAfter, []);
    expect(runs.map(({ written }) => written.line)).toEqual([4, 5]);
    expect(runs[0]!.refused).toMatchObject({ reason: 'people ran', written: { line: 6 } });
    expect(runs[1]!.refused).toBeNull();
    expect(runs[1]!.rolled).toEqual(ROLL_RUN);
  });

  it('refuse what is no run in force', () => {
    const runs = [run(4), refusal(5, 4)].reduce(rollRunsAfter, []);
    expect(() => rollRunsAfter(runs, refusal(6, 4))).toThrow(/line 4 is no run in force/);
    expect(() => rollRunsAfter(runs, refusal(6, 3))).toThrow(/record-line/);
    const many = Array.from({ length: 200 }, (_, k) => run(k)).reduce(rollRunsAfter, []);
    expect(() => rollRunsAfter(many, run(201))).toThrow(/over 200/);
  });
});
