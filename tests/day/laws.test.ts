import { describe, expect, it } from 'vitest';
import { type DaySource, VirtualDay } from '#tests/support/day.ts';
import { sampleSource } from '#tests/support/sample-source.ts';

/** The same day on clocks that began so much earlier. */
function later(source: DaySource, startS: number): DaySource {
  return {
    ...source,
    order: (atS, session) => source.order(atS - startS, session),
    carrying: (atS) => source.carrying(atS - startS),
    async advance(untilS) {
      const items = await source.advance(untilS - startS);
      return items.map((item) =>
        item.type === 'board-clock' ? { ...item, stationS: item.stationS + startS } : item,
      );
    },
  };
}

describe('laws of a whole day', () => {
  it('a time origin changes nothing: a station that has run for twelve days reads the same', async () => {
    // A power of two, so that adding it costs as few digits as may be.
    const startS = 2 ** 20;
    const plain = await new VirtualDay(sampleSource(9)).run();
    const shifted = await new VirtualDay(later(sampleSource(9), startS), { startS }).run();
    const heels = ({ session }: typeof plain): number[] =>
      session.states.map((state) => state.reading!.joined.heelDeg);
    const seen = heels(shifted);
    heels(plain).forEach((heelDeg, state) => {
      expect(Math.abs(seen[state]! - heelDeg), `state ${state}`).toBeLessThan(1e-6);
    });
    expect(shifted.waitedS).toEqual(plain.waitedS);
  });

  it('shifting everything back returns the zero, within what both readings claim', async () => {
    for (const seed of [31, 32, 33]) {
      const { session } = await new VirtualDay(sampleSource(seed)).run();
      const zeros = session.states.filter((state) => Math.abs(state.heelingMomentTM) < 1e-9);
      expect(zeros.map(({ state }) => state)).toEqual([0, 4, 8]);
      const [first, ...again] = zeros.map((state) => state.reading!.joined);
      for (const one of again) {
        const claimed = Math.hypot(first!.standardErrorDeg, one.standardErrorDeg);
        expect(Math.abs(one.heelDeg - first!.heelDeg)).toBeLessThan(4 * claimed);
      }
    }
  });
});
