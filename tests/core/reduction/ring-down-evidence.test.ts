import { describe, expect, it } from 'vitest';
import { ringDownEvidence } from '#core/reduction/ring-down-evidence.ts';
import { ringDownsOf } from '#core/reduction/ring-downs.ts';

/** T goes as one over the root of the stiffness: held by a line that adds 9 % she rolls 4.2 % faster. */
const rolls = (stiffnessOf: (state: number) => number, dampingOf = (_: number) => 0.05) =>
  ringDownsOf(
    Array.from({ length: 9 }, (_, state) => ({
      state,
      periodS: 5 / Math.sqrt(stiffnessOf(state)) + 0.004 * Math.sin(7 * state),
      periodUncertaintyS: 0.01,
      dampingRatio: dampingOf(state) * (1 + 0.02 * Math.sin(5 * state)),
    })),
  ).changes;

describe('her roll as evidence beside the plot', () => {
  it.each([
    ['stiffer', rolls((state) => (state === 4 ? 1.09 : 1)), [4]],
    ['softer', rolls((state) => (state >= 6 ? 0.93 : 1)), [6, 7, 8]],
    [
      'more damped',
      rolls(
        () => 1,
        (state) => (state === 2 ? 0.12 : 0.05),
      ),
      [2],
    ],
    [
      'less damped',
      rolls(
        () => 1,
        (state) => (state === 2 ? 0.02 : 0.05),
      ),
      [2],
    ],
  ] as const)('says %s', (direction, changes, states) => {
    const [evidence, ...more] = ringDownEvidence(changes, []);
    expect(evidence).toMatchObject({ direction, states, plotPointsThere: false });
    expect(evidence!.probability).toBeLessThan(0.01);
    expect(more).toEqual([]);
  });

  it('says whether a shape that is seen points at one of its states', () => {
    const changes = rolls((state) => (state === 4 ? 1.09 : 1));
    const at = (seen: boolean, states: number[]) =>
      ringDownEvidence(changes, [{ seen, states }])[0]!.plotPointsThere;
    expect([at(true, [3, 4]), at(false, [4]), at(true, [5])]).toEqual([true, false, false]);
  });

  it('is none of a day on which she rolls alike', () => {
    expect(
      ringDownEvidence(
        rolls(() => 1),
        [],
      ),
    ).toEqual([]);
  });
});
