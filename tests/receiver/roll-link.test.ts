import { describe, expect, it } from 'vitest';
import { lookInWorker } from '#receiver/roll-link.ts';
import { releasedRoll } from '../support/free-roll.ts';

describe('looking for free roll in a worker', () => {
  const fore = {
    instrument: 'fore',
    ...releasedRoll({ lengthS: 60, noiseDeg: 0.003, releases: [{ atS: 5, heelDeg: 2 }] }),
  };

  it('answers with what is found', async () => {
    const found = await lookInWorker({ instruments: [fore], mark: null, afterS: 0 });
    expect(found).toHaveLength(1);
    expect(found[0]!.run.periodS.value).toBeCloseTo(5.004, 2);
  });

  it('rejects with the fault of a mark that holds nothing', async () => {
    const mark = { fromS: 100, toS: 200 };
    await expect(lookInWorker({ instruments: [fore], mark, afterS: 0 })).rejects.toThrow(
      /input-range/,
    );
  });
});
