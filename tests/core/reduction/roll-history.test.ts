import { describe, expect, it } from 'vitest';
import {
  type KeptRollTest,
  keptCoefficient,
  rollHistory,
  rollOverYears,
} from '#core/reduction/roll-history.ts';

const kept = (date: string, periodS: number, more: Partial<KeptRollTest> = {}): KeptRollTest => ({
  date,
  condition: 'empty holds, half fuel',
  beamM: 5,
  displacementT: 60,
  runs: 3,
  periodS,
  periodUncertaintyS: 0.01,
  periodDegreesOfFreedom: 20,
  dampingRatio: 0.05,
  gmFluidM: null,
  gmUncertaintyM: null,
  ownCoefficient: null,
  ownCoefficientUncertainty: null,
  ownCoefficientDegreesOfFreedom: null,
  ...more,
});
const own = { ownCoefficient: 0.8, ownCoefficientUncertainty: 0.004 };
const years = (...tests: KeptRollTest[]) => rollOverYears({ vessel: 'Marram', tests });

describe('roll tests over the years', () => {
  it('says in words that the roll lengthens, with what that does to GM', () => {
    const answer = years(kept('2024-05-02', 5.3), kept('2019-04-01', 5, own));
    expect(answer.points.map(({ date }) => date)).toEqual(['2019-04-01', '2024-05-02']);
    expect(answer.change!.share).toBeCloseTo(0.06, 12);
    expect(answer.change!.gmShare).toBeCloseTo(1 / 1.06 ** 2 - 1, 12);
    expect(answer.words).toMatch(
      /^Her roll has lengthened by 6\.0 % ± 0\.6 % since 2019-04-01\..*11\.0 % less GM/,
    );
    // (0.8 x 5 / 5.3)^2
    expect(answer.points[1]!.gmFluidM).toBeCloseTo(0.5695977, 6);
  });

  it('calls no change what the uncertainty, the amplitude or another condition leaves open', () => {
    expect(years(kept('2019-01-01', 5), kept('2020-01-01', 5.02)).words).toMatch(/^No change/);
    const fine = { periodUncertaintyS: 0.0001 };
    expect(years(kept('2019-01-01', 5, fine), kept('2020-01-01', 5.02, fine)).words).toMatch(
      /^No change/,
    );
    const other = years(kept('2019-01-01', 5, { condition: 'laden' }), kept('2020-01-01', 6));
    expect(other.change).toBeNull();
    expect(other.words).toMatch(/One test in this condition/);
    expect(other.points[0]!.sameCondition).toBe(false);
  });

  it('says that it shortens, and refuses another beam', () => {
    expect(years(kept('2019-01-01', 5), kept('2020-01-01', 4.5)).words).toMatch(/shortened/);
    expect(() => years(kept('2019-01-01', 5), kept('2020-01-01', 5, { beamM: 6 }))).toThrow(
      /6 m on 2020-01-01|5 m on 2019-01-01/,
    );
  });

  it('keeps her own coefficient, in a form that is checked', () => {
    expect(keptCoefficient(kept('2019-01-01', 5))).toBeNull();
    expect(keptCoefficient(kept('2019-01-01', 5, own))).toEqual({
      value: 0.8,
      standardUncertainty: 0.004,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
    });
    const tests = [kept('2019-01-01', 5, own)];
    expect(rollHistory.parse({ vessel: 'Marram', tests }).tests).toEqual(tests);
    expect(rollHistory.safeParse({ vessel: 'Marram', tests: [{}] }).success).toBe(false);
  });
});
