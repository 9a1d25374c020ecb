import { describe, expect, it } from 'vitest';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionState } from '#core/session/session.ts';
import { COARSEST_TARGET_DEG, stopTarget, uncertaintyAt } from '#core/session/stop-target.ts';
import { aDay } from './a-day.ts';

const withTest = (session: SessionState, change: Partial<NonNullable<SessionState['test']>>) => ({
  ...session,
  test: { ...session.test!, ...change },
});
/** Everything but the angles very well known. */
const sharp = (session: SessionState) =>
  withTest(session, {
    particulars: {
      ...session.test!.particulars,
      displacementUncertaintyT: 0.02,
      kmUncertaintyM: 0.0005,
    },
  });

describe('when a heel is known well enough', () => {
  it('is when the angles leave a third of what all the rest leaves in KG', () => {
    const day = sharp(aDay());
    const target = stopTarget(day)!;
    const angles = target.mPerDeg * target.standardErrorDeg;
    expect(angles).toBeCloseTo(target.restM / 3, 12);
    expect(uncertaintyAt(target, target.standardErrorDeg)).toBeCloseTo(
      target.restM * Math.sqrt(1 + 1 / 9),
      12,
    );
  });

  it('bears out: readings that scatter by just that make the row of the scatter a third of the rest', () => {
    const target = stopTarget(sharp(aDay()))!;
    let ratio = 0;
    const days = 60;
    for (let seed = 1; seed <= days; seed++) {
      const day = sharp(aDay({ seed, stateDeg: target.standardErrorDeg }));
      const { budget } = resultOfSession(day).classical!;
      const of = (wanted: boolean) =>
        Math.hypot(
          ...budget
            .filter(({ cause }) => (cause === 'scatter of the states') === wanted)
            .map(({ kgMm }) => kgMm!),
        );
      ratio += (of(true) / of(false)) ** 2;
    }
    // A mean of 60 variances with 7 degrees of freedom: within a fifth of 1/9.
    expect(ratio / days).toBeGreaterThan(0.8 / 9);
    expect(ratio / days).toBeLessThan(1.25 / 9);
  });

  it('is told before the first reading, from the plan and the guess of GM', () => {
    const day = aDay({ states: 1 });
    const planned = withTest(day, {
      plan: ['A', 'B', 'B', 'A'].map((weight, k) => ({
        moves: [{ weight, to: { xM: 8, yM: k < 2 ? 1.8 : -1.8, zM: 2.4 } }],
      })),
    });
    const target = stopTarget({
      ...planned,
      states: planned.states.map((state) => ({ ...state, reading: null, readingWritten: null })),
    });
    expect(target!.standardErrorDeg).toBeGreaterThan(0);
    expect(stopTarget({ ...planned, mountings: [] })!.restM).toBeGreaterThan(0);
    expect(stopTarget(day)).toBeNull();
  });

  it('is never coarser than a heel means something, and fixed where the test asks for it', () => {
    const loose = withTest(aDay(), {
      particulars: { ...aDay().test!.particulars, kmUncertaintyM: 0.5 },
    });
    expect(stopTarget(loose)!.standardErrorDeg).toBe(COARSEST_TARGET_DEG);
    expect(stopTarget(withTest(loose, { readingStandardErrorDeg: 0.004 }))!.standardErrorDeg).toBe(
      0.004,
    );
  });
});
