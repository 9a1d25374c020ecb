import { describe, expect, it } from 'vitest';
import { repeatedStates } from '#core/session/repeated-states.ts';
import { aDay } from './a-day.ts';

/** Nine states of which 0, 4, 8 are one arrangement, and 1, 3 and 5, 7 two more; each claims 0.005 degree. */
const CLAIMED = 0.005;

describe('the same arrangement read again', () => {
  it('finds three arrangements with seven readings in the usual order of shifts', () => {
    const found = repeatedStates(aDay())!;
    expect([found.arrangements, found.readings, found.degreesOfFreedom]).toEqual([3, 7, 4]);
    expect(found.chiSquared).toBeCloseTo(0, 12);
    expect(found.missingDeg).toBe(0);
    expect(repeatedStates(aDay({ states: 3 }))).toBeNull();
  });

  it('says a day that scatters as it claims is wrong no oftener than chance', () => {
    let said = 0;
    for (let seed = 1; seed <= 400; seed++)
      if (repeatedStates(aDay({ seed, stateDeg: CLAIMED }))!.missingDeg > 0) said += 1;
    // 5 % of 400 is 20, with a standard deviation of 4.4.
    expect(said).toBeGreaterThan(5);
    expect(said).toBeLessThan(40);
  });

  it('finds what is missing where she moved between the states', () => {
    let squares = 0;
    for (let seed = 1; seed <= 200; seed++)
      squares += repeatedStates(aDay({ seed, stateDeg: 0.03 }))!.missingDeg ** 2;
    // 0.03 squared less 0.005 squared, to a fifth.
    expect(Math.sqrt(squares / 200)).toBeGreaterThan(0.024);
    expect(Math.sqrt(squares / 200)).toBeLessThan(0.036);
  });
});
