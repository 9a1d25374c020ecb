import { describe, expect, it } from 'vitest';
import { fitRoll } from '#core/steadiness/fit-roll.ts';
import { blockMeans, blocksWithRinging } from '#core/steadiness/heel-blocks.ts';
import { quieterHalf } from '#core/steadiness/quieter-half.ts';
import { FIRST_PRIOR } from '#core/steadiness/roll-prior.ts';
import { simulatedHeel } from '../../support/simulated-heel.ts';

function halved(record: readonly number[]) {
  const blocks = blocksWithRinging(blockMeans(record, 0.1));
  return quieterHalf(blocks, fitRoll(blocks, FIRST_PRIOR), FIRST_PRIOR);
}

describe('the quieter half', () => {
  it('keeps the whole of an even roll, ringing included', () => {
    for (let seed = 0; seed < 20; seed++) {
      expect(halved(simulatedHeel({ seed, lengthS: 60, ringingDeg: seed % 3 }))).toBeNull();
    }
  });

  it('drops an earlier half with a push in it', () => {
    for (let seed = 0; seed < 5; seed++) {
      const record = simulatedHeel({ seed, lengthS: 60, rollDeg: 0.05 });
      for (let k = 60; k < 90; k++) record[k] = record[k]! + 2 * Math.sin((k - 60) / 5);
      const later = halved(record);
      expect(later!.from).toBe(75);
      expect(Math.abs(later!.fit.heelDeg - 1.25)).toBeLessThan(0.05);
    }
  });
});
