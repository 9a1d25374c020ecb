import { describe, expect, it } from 'vitest';
import { US_WORKING } from '#core/stability/rules/united-states.ts';
import { stabilityAnswer } from '#core/stability/stability-answer.ts';
import { stabilityOutput } from '#core/stability/stability-output.ts';
import { BOX_HULL } from './box-condition.ts';
import { BOX_LOADING } from './box-loading.ts';

const answer = stabilityAnswer(BOX_LOADING, BOX_HULL, [US_WORKING], 'half a tank');

describe('the answer of a loading file', () => {
  it('is of the form its schema says, and adds up', () => {
    expect(() => stabilityOutput.parse(JSON.parse(JSON.stringify(answer)))).not.toThrow();
    const [one] = answer.conditions;
    const sum = one!.rows.reduce((all, { massT }) => all + massT, 0);
    expect(one!.displacementT).toBeCloseTo(sum, 12);
    const height = one!.rows.reduce((all, { massT, zM }) => all + massT * zM, 0) / sum;
    expect(one!.kgM).toBeCloseTo(height, 12);
    expect(one!.gmSolidM - one!.gmFluidM).toBeCloseTo(one!.freeSurfaceTM / sum, 12);
    expect(one!.draughtMeanM).toBeCloseTo(1.5, 9);
    expect(one!.kgUncertainty!.upper95M).toBeGreaterThan(one!.kgM);
  });

  it('judges every clause, and the box by its closed form', () => {
    const [one] = answer.conditions;
    const gm = one!.ruleSets[0]!.clauses.find(({ clause }) => clause === 'gm')!;
    expect(gm.verdict).toBe('met');
    expect(gm.figures[0]!.value).toBeCloseTo(2.75 - one!.kgM - one!.freeSurfaceTM / 184.5, 9);
    expect(gm.figures[0]!.expandedUncertainty).toBeGreaterThan(0.015);
    for (const side of one!.sides) expect(side.deckEdgeDeg).toBeCloseTo(26.565, 2);
  });

  it('refuses a condition that is not there', () => {
    expect(() => stabilityAnswer(BOX_LOADING, BOX_HULL, [US_WORKING], 'full')).toThrow(
      /loading-unknown/,
    );
  });

  it('says in which condition a fault is', () => {
    const [first] = BOX_LOADING.conditions!;
    const stone = { ...first!.items[0]!, massT: 400 };
    const sunk = { ...BOX_LOADING, conditions: [{ ...first!, items: [stone] }] };
    expect(() => stabilityAnswer(sunk, BOX_HULL, [US_WORKING])).toThrow(
      /hull-sinks.*half a tank: a test/,
    );
  });

  it('lets a margin within its uncertainty count when it is signed, never a wrong side', () => {
    const signed = [{ ruleSet: 'us-46-cfr-170-173', clause: 'gm', by: 'A. Rowan' }];
    const of = (vcgM: number) => {
      const lightship = {
        ...BOX_LOADING.lightship,
        vcg: { value: vcgM, standardUncertainty: 0.1 },
      };
      const input = { ...BOX_LOADING, lightship, signed };
      const [one] = stabilityAnswer(input, BOX_HULL, [US_WORKING], 'light').conditions;
      return one!.ruleSets[0]!.clauses.find(({ clause }) => clause === 'gm')!;
    };
    // KM of 170 t is 2.862 m: GM 0.21, then 0.11
    expect(of(2.65)).toMatchObject({ verdict: 'met-within-uncertainty', countsAsMet: true });
    expect(of(2.75)).toMatchObject({ verdict: 'not-met', countsAsMet: false });
  });
});
