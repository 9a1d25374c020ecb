import { describe, expect, it } from 'vitest';
import { ALL_QUIET } from '#device/emulated/simulated-world.ts';
import { NoReading, VirtualDay } from '#tests/support/day.ts';
import { kindOfDay } from '#tests/support/day-kinds.ts';
import { scoreOfDay } from '#tests/support/day-score.ts';
import { sampleSource } from '#tests/support/sample-source.ts';

const FIRST_SEED = 500;
const DAYS = 24;
/** Of 24 days with true coverage .95, fewer than 18 inside would come once in 7800 times (binomial). */
const LEAST_INSIDE = 18;

describe('two dozen days at sample level', () => {
  it('each ends with eight shifts read and a GM near the truth its simulator knows', async () => {
    let inside = 0;
    let givenUp = 0;
    for (let seed = FIRST_SEED; seed < FIRST_SEED + DAYS; seed++) {
      const kind = kindOfDay(seed);
      try {
        const day = await new VirtualDay(
          sampleSource(seed, kind.disturbances, kind.fromState),
        ).run();
        const score = scoreOfDay(day);
        expect(day.result.statesRead, `seed ${seed}`).toBe(9);
        // No single day may be further off than chance allows in a lifetime of days.
        expect(Math.abs(score.errorInHalfWidths), `seed ${seed}, ${kind.name}`).toBeLessThan(3);
        if (kind.name === 'quiet')
          expect(Math.abs(score.relativeError), `seed ${seed}`).toBeLessThan(0.01);
        if (score.inside) inside++;
      } catch (error) {
        if (!(error instanceof NoReading) || !kind.mayBeGivenUp) throw error;
        givenUp++;
      }
    }
    console.log(
      `${inside} of ${DAYS - givenUp} days inside their own 95 % interval, ${givenUp} given up`,
    );
    expect(inside + givenUp).toBeGreaterThanOrEqual(LEAST_INSIDE);
  }, 240_000);

  it('shows a fouled line as one side short, on each of six days', async () => {
    for (let seed = 1; seed <= 6; seed++) {
      const fouled = { ...ALL_QUIET, snaggedLine: true };
      const { result } = await new VirtualDay(sampleSource(seed, fouled)).run();
      const seen = result.diagnosis!.shapes.filter((shape) => shape.seen);
      expect(
        seen.map(({ shape }) => shape),
        `seed ${seed}`,
      ).toContain('one side short');
    }
  }, 60_000);

  it('is the same day again from the same seed', async () => {
    const [first, second] = await Promise.all(
      [1, 2].map(() => new VirtualDay(sampleSource(7, ALL_QUIET)).run()),
    );
    expect(first!.result).toEqual(second!.result);
  }, 60_000);
});
