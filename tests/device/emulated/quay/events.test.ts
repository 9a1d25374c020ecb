import { describe, expect, it } from 'vitest';
import { eventsUnderWay } from '#device/emulated/quay/events.ts';

const plan = { stream: 9, firstS: 5, slotS: 60, spread: 0.5 };

describe('events of a disturbance', () => {
  it('begin soon after switching on and then once in each slot', () => {
    expect(eventsUnderWay(plan, 4.9, 30)).toEqual([]);
    expect(eventsUnderWay(plan, 5.1, 30)[0]!.ageS).toBeCloseTo(0.1, 9);
    const begins = new Set<number>();
    for (let timeS = 0; timeS < 605; timeS += 0.5) {
      for (const event of eventsUnderWay(plan, timeS, 30)) {
        begins.add(Math.round((timeS - event.ageS) * 1e6) / 1e6);
      }
    }
    const sorted = [...begins].sort((a, b) => a - b);
    expect(sorted).toHaveLength(10);
    sorted.forEach((beginS, k) => {
      expect(beginS).toBeGreaterThanOrEqual(5 + 60 * k);
      expect(beginS).toBeLessThanOrEqual(5 + 60 * k + 30);
    });
  });

  it('keep their draws from begin to end', () => {
    const early = eventsUnderWay(plan, 6, 30)[0]!;
    const late = eventsUnderWay(plan, 34, 30)[0]!;
    expect([1, 2, 3].map(early.draw)).toEqual([1, 2, 3].map(late.draw));
  });

  it('may overlap when they last longer than a slot', () => {
    expect(eventsUnderWay(plan, 200, 150).length).toBeGreaterThan(1);
  });
});
