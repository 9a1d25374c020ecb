import { describe, expect, it } from 'vitest';
import { limitsAnswer } from '#core/limits/limits-answer.ts';
import { limitsOutput } from '#core/limits/limits-output.ts';
import { BOX_HULL } from '#tests/core/stability/box-condition.ts';
import { BOX_LOADING } from '#tests/core/stability/box-loading.ts';
import { GM_035 } from './gm-rule.ts';

const NOTHING = {
  only: 'light',
  limitingKg: null,
  wheelhouse: false,
  remedies: false,
  change: null,
};
const at = { xM: 10, yM: 0, zM: 6 };

describe('the answer about limits', () => {
  it('says nothing that was not asked', () => {
    expect(limitsAnswer(BOX_LOADING, BOX_HULL, [GM_035], NOTHING)).toEqual({
      limitingKg: null,
      wheelhouse: null,
      remedies: null,
      whatIf: null,
    });
  });

  it('is of the form its schema says, remedies for what is not met only', () => {
    const vcg = { value: 2.6, standardUncertainty: 0.01 };
    const high = { ...BOX_LOADING, lightship: { ...BOX_LOADING.lightship, vcg } };
    const change = { act: 'add' as const, what: 'a mast', massT: 1, at };
    const found = limitsAnswer(high, BOX_HULL, [GM_035], {
      only: null,
      limitingKg: { displacementsT: [170, 180], trimsM: [0] },
      wheelhouse: true,
      remedies: true,
      change,
    });
    expect(() => limitsOutput.parse(JSON.parse(JSON.stringify(found)))).not.toThrow();
    expect(found.remedies!.map(({ condition }) => condition)).toContain('light');
    expect(found.whatIf!.map(({ before }) => before.outcome)).toContain('not-met');
    const [what] = found.whatIf!;
    expect(what!.after.kgM).toBeGreaterThan(what!.before.kgM);
  });

  it('the most that may be added meets the clause just so', () => {
    const light = { ...BOX_LOADING.lightship, vcg: { value: 2.2 } };
    const change = { act: 'add' as const, what: 'cargo', massT: 1, at };
    const found = limitsAnswer({ ...BOX_LOADING, lightship: light }, BOX_HULL, [GM_035], {
      ...NOTHING,
      change,
    });
    const { massT, withinT } = found.whatIf![0]!.most!;
    const gm = (added: number) => {
      const mass = 170 + added;
      const draught = mass / 1.025 / 120;
      return draught / 2 + 3 / draught - (170 * 2.2 + added * 6) / mass;
    };
    expect(gm(massT)).toBeGreaterThanOrEqual(0.35);
    expect(gm(massT + withinT)).toBeLessThan(0.35);
  });
});
