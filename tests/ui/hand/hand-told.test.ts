import { describe, expect, it } from 'vitest';
import { handTold } from '#ui/hand/hand-told.ts';

const reading = (extremesMm: number[]) => ({
  state: 1,
  instrument: 'Pendulum',
  kind: 'pendulum' as const,
  lengthMm: 2500,
  extremesMm,
  reader: 'R. Sole',
});

describe('a hand reading', () => {
  it('gives a heel to the side it hangs to', () => {
    expect(handTold(reading([-71, -48, -69, -50])).deflection!.heelDeg).toBeLessThan(0);
  });

  it('says in words why two extremes give none', () => {
    const told = handTold(reading([70, 50]));
    expect(told.deflection).toBeNull();
    expect(told.why).toMatch(/^Gives no heel: there are too few values/);
  });
});
