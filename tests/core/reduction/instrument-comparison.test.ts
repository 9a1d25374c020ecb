import { expect, test } from 'vitest';
import { compareInstruments } from '#core/reduction/instrument-comparison.ts';

const MOMENTS = [0, 1, 2, 1, 0, -1, -2, -1];
const wobble = [3, -1, 2, 0, -2, 1, -3, 2];

/** Two instruments, the second of another zero and scale; small own errors, large shared ones. */
const tangents = MOMENTS.map((moment, i) => {
  const heel = 0.03 * moment + 1e-3 * wobble[i]!;
  return [heel + 1e-6 * (i % 3), 1.02 * heel + 0.004 - 1e-6 * (i % 2)];
});

test('a difference of zero and of scale shows within states, whatever the states share', () => {
  const compared = compareInstruments({ moments: MOMENTS, tangents });
  expect(compared.intercepts!.probability).toBeLessThan(1e-4);
  expect(compared.slopes!.probability).toBeLessThan(1e-4);
  // two instruments: the one differs from the other as the other from the one
  expect(compared.ownSlope[0]!.f).toBeCloseTo(compared.ownSlope[1]!.f, 6);
});

test('a single instrument has nothing to be compared with', () => {
  const single = compareInstruments({
    moments: MOMENTS,
    tangents: tangents.map((row) => [row[0]!]),
  });
  expect([single.intercepts, single.slopes, single.ownSlope[0]]).toEqual([null, null, null]);
  expect(single.alone[0]!.degreesOfFreedom).toBe(6);
});

test('an instrument read twice, or at one moment, has no line of its own', () => {
  const few = tangents.map((row, i) => [row[0]!, i < 2 ? row[1]! : null]);
  expect(compareInstruments({ moments: MOMENTS, tangents: few }).alone[1]).toBeNull();
  const same = tangents.map((row, i) => [row[0]!, MOMENTS[i] === 1 || i === 3 ? row[1]! : null]);
  expect(compareInstruments({ moments: MOMENTS, tangents: same }).alone[1]).toBeNull();
});
