import { describe, expect, it } from 'vitest';
import { degreesFromRadians, radiansFromDegrees } from '#core/quantity/angle.ts';

describe('angle', () => {
  it('turns half a circle into pi and back', () => {
    expect(radiansFromDegrees(180)).toBe(Math.PI);
    expect(degreesFromRadians(Math.PI)).toBe(180);
  });

  it('knows one milliradian as 0.0573 degree (a pendulum of 1 m moving 1 mm)', () => {
    expect(degreesFromRadians(0.001)).toBeCloseTo(0.0572957795, 10);
  });
});
