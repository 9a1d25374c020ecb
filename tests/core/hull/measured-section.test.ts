import { expect, it } from 'vitest';
import { radiusAt } from '#core/hull/measured-section.ts';

const at = (y: number, down: number) => ({
  angleRad: Math.atan2(y, down),
  radiusM: Math.hypot(y, down),
  point: { xM: 0, yM: y, zM: -down, where: '' },
});

it('runs straight between two points as they lie in the section', () => {
  const side = [at(0, 2), at(1, 2), at(1, 0.5)];
  const angle = Math.atan2(0.5, 2);
  expect(radiusAt(side, angle)).toBeCloseTo(Math.hypot(0.5, 2), 12);
  expect(radiusAt(side, Math.atan2(1, 1))).toBeCloseTo(Math.SQRT2, 12);
  expect(radiusAt(side, 1.4)).toBeNull();
  expect(radiusAt(side, -0.1)).toBeNull();
});
