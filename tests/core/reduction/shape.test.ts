import { expect, test } from 'vitest';
import { studentTBeyond } from '#core/numerics/student-t.ts';
import { largest, sideOf } from '#core/reduction/shape.ts';

const at = (t: number, place: number) => ({ t, degreesOfFreedom: 6, place });

test('the largest of several stands, its probability times how many were looked at', () => {
  const found = largest(
    'a step',
    [at(1, 0), at(-4, 1), at(2, 2)],
    ({ place, t }) => `at ${place}, ${sideOf(t)}`,
    ({ place }) => ({ states: [place] }),
  );
  expect(found).toMatchObject({ words: 'at 1, to port', t: -4, states: [1], instrument: null });
  expect(found.probability).toBeCloseTo(3 * studentTBeyond(4, 6), 14);
});

test('a probability is at most one, and none where nothing could be looked for', () => {
  const small = largest(
    'a step',
    [at(0.1, 0), at(0.2, 1)],
    () => '',
    () => ({}),
  );
  expect(small.probability).toBe(1);
  const none = largest(
    'a step',
    [],
    () => '',
    () => ({}),
  );
  expect([none.probability, none.t]).toEqual([null, null]);
  expect(none.words).toContain('could not be looked for');
});
