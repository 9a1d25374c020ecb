import { expect, it } from 'vitest';
import { causesOf } from '#core/reduction/causes.ts';
import { dayEvidence } from '#tests/core/reduction/cause-evidence.ts';

const DEG = Math.PI / 180;

it('says what the states lie off the line with the cause and without it, and what was seen while waiting', () => {
  const [first] = causesOf(
    dayEvidence({
      heel: (t, state) => (state >= 3 ? t + 0.08 * DEG : t),
      more: { traces: [{ state: 3, kind: 'moved', instruments: null }] },
    }),
  );
  expect(first!.evidence.map(({ words }) => words)).toEqual([
    expect.stringMatching(
      /^with it the states lie 0\.00\d deg off the line, without it 0\.0[23]\d deg$/,
    ),
    'seen in the course of the heel while waiting for state 3: moved',
  ]);
  expect(first!.todo).toMatch(/repeat the zero/);
});

it('gives a weight of which only moments are known a share of its moment', () => {
  const day = dayEvidence({ heel: (t, state) => ([5, 6, 7].includes(state) ? t - 0.0015 : t) });
  const weights = day.weights.map((one) => ({ ...one, distance: null }));
  const found = causesOf({ ...day, weights }).find(({ cause }) => cause === 'weight');
  expect(found!.words).toMatch(/C \d\.\d % more moment than written/);
});

it('says of the wind whether the same arrangements agree', () => {
  const of = (repeatsProbability: number) =>
    causesOf(
      dayEvidence({
        heel: (t, state) => t + [3, -6, 4, 2, -5, 6, -3, -4, 5][state]! * 0.02 * DEG,
        more: { repeatsProbability },
      }),
    )
      .find(({ cause }) => cause === 'wind')!
      .evidence.find(({ from }) => from === 'repeats')!;
  expect(of(0.001)).toMatchObject({ speaksFor: true, words: expect.stringContaining('differ') });
  expect(of(0.5)).toMatchObject({ speaksFor: false, words: expect.stringContaining('agree') });
});
