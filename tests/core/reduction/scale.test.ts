import { expect, test } from 'vitest';
import { tangentScaled } from '#core/reduction/scale.ts';

test('one per cent of a small heel is one per cent in every space', () => {
  for (const space of ['tangent', 'sine', 'angle'] as const) {
    expect(tangentScaled(0.01, 1.01, space) / 0.01).toBeCloseTo(1.01, 5);
  }
});

test('at 45 degrees the spaces part', () => {
  expect(tangentScaled(1, 1.01, 'tangent')).toBeCloseTo(1.01, 12);
  expect(tangentScaled(1, 1.01, 'angle')).toBeCloseTo(Math.tan((45.45 * Math.PI) / 180), 12);
  const sine = 1.01 * Math.SQRT1_2;
  expect(tangentScaled(1, 1.01, 'sine')).toBeCloseTo(sine / Math.sqrt(1 - sine * sine), 12);
});
