import { describe, expect, it } from 'vitest';
import { causePatterns } from '#core/reduction/cause-patterns.ts';
import { dayEvidence } from '#tests/core/reduction/cause-evidence.ts';

const evidence = dayEvidence();
const heels = evidence.moments.map((moment) => moment * evidence.tangentPerMoment);
const patterns = causePatterns(evidence, heels);
const of = (cause: string) => patterns.filter((one) => one.cause === cause);

describe('what each cause would do', () => {
  it('has a column of one number a state for each, and counts the places it is looked for at', () => {
    for (const { column, held } of patterns) {
      expect(column).toHaveLength(heels.length);
      if (held !== null) expect(held).toHaveLength(heels.length);
    }
    expect(of('weight').map(({ places }) => places)).toEqual([4, 4, 4, 4]);
    expect(of('moved')).toHaveLength(8);
  });

  it('holds her on one side alone past where a line comes taut, and never pushes her there', () => {
    for (const { column, side, sign, held } of of('line')) {
      expect(sign).toBe(-1);
      column.forEach((one, i) => {
        expect(one * side!).toBeGreaterThanOrEqual(0);
        expect(held![i]).toBe(one === 0 ? 0 : 1);
        if (heels[i]! * side! <= 0) expect(Math.abs(one)).toBe(0);
      });
    }
  });

  it('remembers the heel before, the less the less is still to run', () => {
    const [little, , , much] = of('cross-connection');
    // the first heel to starboard lags behind by what is still to run of it
    expect(little!.column[1]).toBeCloseTo(-0.2 * heels[1]!, 12);
    expect(much!.column[1]).toBeCloseTo(-0.8 * heels[1]!, 12);
    // come back to no moment, some of the heel is still there
    expect(much!.column[4]).toBeGreaterThan(0);
  });

  it('drifts by the clock where times are known, by the order of states where not', () => {
    expect(of('list-drift')[0]!.column).toEqual(evidence.timesS);
    const without = causePatterns({ ...evidence, timesS: null }, heels);
    expect(without.find(({ cause }) => cause === 'list-drift')!.column).toEqual(
      heels.map((_, i) => i),
    );
  });

  it('looks for nothing on a side she was never heeled to', () => {
    const one = causePatterns(evidence, heels.map(Math.abs));
    expect(one.some(({ side }) => side === -1)).toBe(false);
    expect(one.some(({ cause, side }) => cause === 'tank-wall' && side === null)).toBe(false);
  });
});
