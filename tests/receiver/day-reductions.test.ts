import { expect, test } from 'vitest';
import type { DayReduction } from '#core/session/day-reduction.ts';
import type { SessionState } from '#core/session/session.ts';
import { DayReductions } from '#receiver/day-reductions.ts';
import { aDay } from '#tests/core/session/a-day.ts';

const reductionOf = (session: SessionState): DayReduction => ({
  lines: session.lines,
  byHull: false,
  reduction: null,
  refused: { code: 'line-not-determined', where: 'x', found: 'y' },
});

test('one at a time, the next from what stands then, and none where nothing changed', async () => {
  let session = aDay();
  const asked: number[] = [];
  const open: (() => void)[] = [];
  const reductions = new DayReductions(
    () => session,
    (of) => {
      asked.push(of.lines);
      return new Promise((resolve) => open.push(() => resolve(reductionOf(of))));
    },
  );
  let told = 0;
  const keepUp = () =>
    reductions.keepUp(() => {
      told += 1;
    });
  const first = keepUp();
  session = { ...session, lines: 101, states: [...session.states] };
  await keepUp();
  expect(asked).toEqual([100]);
  open[0]!();
  await first;
  const second = keepUp();
  open[1]!();
  await second;
  session = { ...session, lines: 102 };
  await keepUp();
  expect(asked).toEqual([100, 101]);
  expect(told).toBe(2);
  expect(JSON.parse(reductions.told!)).toMatchObject({
    type: 'reduction',
    reduction: { lines: 101 },
  });
});

test('a worker that fails is told as the reason why there is none', async () => {
  const reductions = new DayReductions(aDay, () => Promise.reject(new Error('out of memory')));
  await reductions.keepUp(() => {});
  expect(reductions.told).toContain('program-fault');
});
