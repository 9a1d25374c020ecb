import { describe, expect, it } from 'vitest';
import { rollSupport } from '#core/reduction/cause-roll.ts';

const SHARES = [0, 0.1, 0.1, 0.1, 0, 0, 0, 0, 0];
/** T goes as one over the root of the stiffness. */
const periods = (shares: readonly number[], uncertaintyS = 0.02) =>
  shares.map((share, state) => ({
    state,
    periodS: (5 + 0.004 * Math.sin(9 * state)) / Math.sqrt(1 + share),
    uncertaintyS,
  }));
const none = SHARES.map(() => 0);

describe('her roll for or against a cause', () => {
  it('speaks for it where the period changes as it asks, against it where it does not', () => {
    expect(rollSupport(periods(SHARES), SHARES)).toBeGreaterThan(5);
    expect(rollSupport(periods(none), SHARES)).toBeLessThan(-1);
    expect(
      rollSupport(
        periods(SHARES),
        SHARES.map((one) => -one),
      ),
    ).toBeLessThan(-5);
  });

  it('says the less the less sure the periods are, and never more than its limit', () => {
    const vague = rollSupport(periods(SHARES, 0.3), SHARES)!;
    expect(Math.abs(vague)).toBeLessThan(0.5);
    expect(rollSupport(periods(SHARES, 1e-6), SHARES)).toBeLessThanOrEqual(10);
  });

  it('says nothing of fewer than three periods, or where every state is held alike', () => {
    expect(rollSupport(periods(SHARES).slice(0, 2), SHARES)).toBeNull();
    expect(
      rollSupport(
        periods(SHARES),
        SHARES.map(() => 0.1),
      ),
    ).toBeNull();
  });
});
