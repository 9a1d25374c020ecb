import { expect, test } from 'vitest';
import { atUpperKg } from '#core/limits/at-upper-kg.ts';
import { boxQuestion } from '#tests/core/stability/box-condition.ts';

test('KG rises by 1.644854 standard uncertainties of the normal law, and is certain then', () => {
  const upper = atUpperKg(boxQuestion({ kgUncertaintyM: 0.02 }))!;
  expect(upper.loaded.centre.zM).toBeCloseTo(2.2 + 1.644854 * 0.02, 6);
  expect(upper.loaded.moments.massT).toBe(184.5);
  expect(upper.loaded.causes).toBeNull();
  expect(atUpperKg(upper)).toBeNull();
});
