import { expect, test } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { answerWithBudget, type Causes } from '#core/reduction/budget.ts';
import { worthOfMore } from '#core/reduction/worth.ts';

const MOMENTS = [0, 3, 6, 3, 0, -3, -6, -3, 0];
const GM = 0.55;
const DISPLACEMENT = 184.5;

/** The box test with draughts read to so many metres, angles of so many degrees a state. */
function answer(draughtM: number, angleDeg: number, moments = MOMENTS) {
  const random = createRandom(4, 'worth');
  const causes: Causes = {
    displacementUncertainty: 0,
    km: { value: 2.75, standardUncertainty: 0 },
    metacentreMovementUncertainty: 0,
    together: [
      {
        cause: 'freeboards and draughts as read',
        displacement: draughtM * 123,
        km: draughtM * (0.5 - 36 / 12 / 2.25),
        metacentreMovement: 0,
      },
    ],
    weights: [],
    massScaleUncertainty: 0,
    distanceUncertainty: 0,
    momentScaleUncertainty: 0.001,
    instruments: [{ instrument: 'fore', scaleUncertainty: 0, space: 'angle' }],
    angleScaleUncertainty: 0,
  };
  const tangents = moments.map((moment) => [
    moment / (DISPLACEMENT * GM) + random.normal((angleDeg * Math.PI) / 180),
  ]);
  return answerWithBudget(
    {
      displacement: DISPLACEMENT,
      heelingMoments: moments,
      verticalMoments: moments.map(() => 0),
      tangents,
      metacentreMovement: 0,
    },
    causes,
  );
}

test('draughts badly read: freeboards again buy more than waiting, and the angles may stop', () => {
  const worth = worthOfMore(answer(0.01, 0.003), 10, { countedS: 60, readingTangent: 3e-5 });
  expect(worth.largestCause).toBe('freeboards and draughts as read');
  expect(worth.more[0]!.what).toMatch(/^freeboard/);
  expect([worth.mayStop, worth.why]).toEqual([true, 'angles-under-a-third']);
  const all = worth.more.find((one) => one.what === 'freeboards-all-again')!;
  // nearly the whole width is theirs, and twice read it falls by root two
  expect(all.bought / worth.halfWidth95).toBeGreaterThan(0.22);
});

test('angles badly read: a shift more buys most, and one does not stop', () => {
  const worth = worthOfMore(answer(0.0005, 0.05), 10, { countedS: 60, readingTangent: 1e-4 });
  expect(worth.largestCause).toBe('scatter of the states');
  expect(worth.more[0]!.what).toBe('next-shift');
  expect([worth.mayStop, worth.why]).toEqual([false, 'worth-going-on']);
  // what it would buy is what it buys: one more state at the end, the same scatter and t
  const shift = worth.more[0]!;
  expect(shift.bought).toBeGreaterThan(0.05 * worth.halfWidth95);
  expect(shift.halfWidth95After).toBeCloseTo(worth.halfWidth95 - shift.bought, 12);
});

test('a minute buys only what the reading itself is unsure of', () => {
  const scattered = answer(0.0005, 0.05);
  const minute = (readingTangent: number) =>
    worthOfMore(scattered, 0, { countedS: 60, readingTangent }).more.find(
      (one) => one.what === 'minute-each',
    )!.bought;
  expect(minute(0)).toBeCloseTo(0, 12);
  expect(minute(1e-4)).toBeGreaterThan(0);
  expect(minute(3e-4)).toBeGreaterThan(minute(1e-4));
});

test('three states never stop, and without freeboards none are offered', () => {
  const worth = worthOfMore(answer(0.01, 0.001, [0, 3, 6]), 0, null);
  expect([worth.mayStop, worth.why]).toEqual([false, 'few-states']);
  expect(worth.more.map((one) => one.what)).toEqual(['next-shift']);
});
