import { afterEach, describe, expect, it } from 'vitest';
import { sequencesOf } from '#tests/device/support/test-receiver.ts';
import { type ChipSource, startChipSource } from '#tests/support/chip-source.ts';
import { VirtualDay } from '#tests/support/day.ts';
import { scoreOfDay } from '#tests/support/day-score.ts';

/** Eight shifts and the zero, each watched so long that the boards run forty minutes. */
const LEAST_WATCH_S = 245;
/** The trial runs more days of it than one. */
const DAYS = Number(process.env['HEELWRIGHT_CHIP_DAYS'] ?? '1');
const FIRST_SEED = Number(process.env['HEELWRIGHT_FIRST_SEED'] ?? '41');

let source: ChipSource | null = null;
afterEach(async () => {
  await source?.stop();
  source = null;
});

describe('a quiet day at chip level, forty board minutes', () => {
  for (let seed = FIRST_SEED; seed < FIRST_SEED + DAYS; seed++) {
    it(`seed ${seed}: every scan arrives once and GM is near the truth`, async () => {
      const begunMs = performance.now();
      source = await startChipSource(seed);
      const day = await new VirtualDay(source, { leastWatchS: LEAST_WATCH_S }).run();
      const wallS = (performance.now() - begunMs) / 1000;
      const score = scoreOfDay(day);
      console.log(
        `seed ${seed}: ${(day.worldTimeS / 60).toFixed(1)} board minutes in ${wallS.toFixed(0)} s, ` +
          `GM ${score.gmM.toFixed(4)} m, u ${score.standardUncertaintyM.toFixed(4)} m, truth ${score.truthM.toFixed(4)} m`,
      );
      expect(day.worldTimeS - source.startS!).toBeGreaterThan(40 * 60);
      expect(day.result.statesRead).toBe(9);
      expect(Math.abs(score.relativeError)).toBeLessThan(0.01);
      expect(Math.abs(score.errorInHalfWidths)).toBeLessThan(2);
      await source.settled();
      expect(source.receiver.broken).toEqual([]);
      expect(source.receiver.streams.size).toBe(2);
      for (const stream of source.receiver.streams.keys()) {
        const sequences = sequencesOf(source.receiver.items(stream));
        expect(sequences).toEqual(sequences.map((_, k) => k));
        expect(sequences.length, stream).toBeGreaterThan(40 * 60 * 49);
      }
    }, 400_000);
  }
});
