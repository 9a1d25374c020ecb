import { describe, expect, it } from 'vitest';
import { rollRunLine } from '#core/record/roll-line.ts';
import { lookForRoll } from '#core/reduction/roll-look.ts';
import { releasedRoll } from '../../support/free-roll.ts';

const releases = [5, 70].map((atS) => ({ atS, heelDeg: 2 }));
const instrument = (name: string, noiseDeg: number, seed: number) => ({
  instrument: name,
  ...releasedRoll({ lengthS: 130, noiseDeg, seed, releases }),
});
const instruments = [instrument('fore', 0.01, 1), instrument('aft', 0.003, 2)];

describe('free roll looked for in all instruments', () => {
  it('is told by the one that knows it best, with the others beside, in the form of a line', () => {
    const found = lookForRoll(instruments, null, 0);
    expect(found.map((one) => [one.by, one.instrument, one.run.refused])).toEqual([
      ['found', 'aft', null],
      ['found', 'aft', null],
    ]);
    expect(found[0]!.others.map((one) => one.instrument)).toEqual(['fore']);
    expect(found[0]!.others[0]!.periodS).toBeCloseTo(5.004, 2);
    for (const one of found) expect(rollRunLine.parse(one)).toEqual(one);
  });

  it('is only what came after the last one recorded, or what is marked', () => {
    expect(lookForRoll(instruments, null, 50)).toHaveLength(1);
    const [marked] = lookForRoll(instruments, { fromS: 0, toS: 65 }, 50);
    expect(marked!.by).toBe('marked');
    expect(marked!.run.toS).toBeLessThan(65);
    expect(() => lookForRoll(instruments, { fromS: 200, toS: 300 }, 0)).toThrow(/input-range/);
    expect(() => lookForRoll([], { fromS: 0, toS: 30 }, 0)).toThrow(/no instrument/);
    expect(lookForRoll([], null, 0)).toEqual([]);
  });

  it('goes to free roll before what one instrument shows refused', () => {
    const noisy = instrument('noisy', 0.4, 3);
    const [found] = lookForRoll([noisy, instruments[0]!], null, 0);
    expect(found).toMatchObject({ instrument: 'fore', run: { refused: null } });
  });
});
