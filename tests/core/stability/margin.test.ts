import { describe, expect, it } from 'vitest';
import { movedOf, weigh } from '#core/stability/margin.ts';
import type { Requirement } from '#core/stability/rule-set.ts';
import { leversOf, type Made, madeEvidence } from '../../support/made-evidence.ts';

const GM: Requirement = {
  quantity: { kind: 'gm-fluid' },
  bound: 'at-least',
  limit: { kind: 'fixed', value: 0.35, unit: 'm' },
};
const AREA: Requirement = {
  quantity: { kind: 'area', fromDeg: 0, to: 30, stops: null },
  bound: 'at-least',
  limit: { kind: 'fixed', value: 0.055, unit: 'm.rad' },
};

const figure = (of: Requirement, made: Made, times = 1) => {
  const evidence = madeEvidence(made);
  const weighed = weigh(
    { evidence, side: 'starboard', method: 'exact' },
    movedOf(evidence),
    of,
    times,
  );
  if (!('figure' in weighed)) throw new Error(weighed.unknown.code);
  return weighed.figure;
};

describe('a margin', () => {
  it('has the expanded uncertainty that Student has, and its chance', () => {
    const normal = figure(GM, { gmM: 0.36, kgUncertaintyM: 0.01 });
    expect(normal).toMatchObject({
      value: 0.36,
      limit: 0.35,
      margin: expect.closeTo(0.01, 12),
      expandedUncertainty: expect.closeTo(0.0195996, 7),
      chance: expect.closeTo(0.8413447, 6),
      outcome: 'met-within-uncertainty',
    });
    // t(0.975, 6) = 2.44691185114497.
    const few = figure(GM, { gmM: 0.375, kgUncertaintyM: 0.01, degreesOfFreedom: 6 });
    expect(few.expandedUncertainty).toBeCloseTo(0.0244691185, 9);
    expect(few.outcome).toBe('met');
    expect(figure(GM, { gmM: 0.374, kgUncertaintyM: 0.01, degreesOfFreedom: 6 }).outcome).toBe(
      'met-within-uncertainty',
    );
  });

  it('on the wrong side is not met, however large the uncertainty', () => {
    const wrong = figure(GM, { gmM: 0.3499999, kgUncertaintyM: 5 });
    expect(wrong.outcome).toBe('not-met');
    expect(wrong.chance).toBeLessThan(0.5);
  });

  it('of an area moves with KG by the difference of cosines', () => {
    const levers = leversOf(
      (heel) => 0.25 * Math.sin(2 * heel),
      (heel) => 0.125 * (1 - Math.cos(2 * heel)),
    );
    const one = figure(AREA, { levers, kgUncertaintyM: 0.02 });
    expect(one.value).toBeCloseTo(0.0625, 12);
    expect(one.expandedUncertainty).toBeCloseTo(
      1.959963985 * 0.02 * (1 - Math.cos(Math.PI / 6)),
      9,
    );
  });

  it('says nothing of an uncertainty that nobody stated', () => {
    expect(figure(GM, { gmM: 0.36 })).toMatchObject({
      expandedUncertainty: null,
      chance: null,
      outcome: 'met',
    });
  });

  it('on the limit itself is met where at least is asked and not where above is', () => {
    expect(figure(GM, { gmM: 0.35 }).outcome).toBe('met');
    expect(figure({ ...GM, bound: 'above' }, { gmM: 0.35 }).outcome).toBe('not-met');
    expect(figure({ ...GM, bound: 'at-most' }, { gmM: 0.35 }).outcome).toBe('met');
    expect(figure({ ...GM, bound: 'below' }, { gmM: 0.35 }).outcome).toBe('not-met');
    expect(figure({ ...GM, bound: 'at-most' }, { gmM: 0.3 }).margin).toBeCloseTo(0.05, 12);
  });

  it('has the factor on a limit that is at least', () => {
    expect(figure(GM, { gmM: 0.41 }, 1.2)).toMatchObject({
      limit: expect.closeTo(0.42, 12),
      outcome: 'not-met',
    });
    expect(figure({ ...GM, bound: 'at-most' }, { gmM: 0.41 }, 1.2).limit).toBeCloseTo(0.35, 12);
  });

  it('at a summit is not certain', () => {
    const evidence = madeEvidence({ kgUncertaintyM: 1 });
    const bent = (kg: number) => madeEvidence({ leastFreeboardM: 1 - 0.1 * kg * kg });
    const moved = [
      { cause: 'x', degreesOfFreedom: Number.POSITIVE_INFINITY, up: bent(1), down: bent(-1) },
    ];
    const at = {
      evidence: { ...evidence, leastFreeboardM: 1 },
      side: 'port',
      method: 'exact',
    } as const;
    const weighed = weigh(at, moved, { ...GM, quantity: { kind: 'freeboard' } }, 1);
    // f = 1 - 0.1 x2, x normal: standard deviation 0.1 sqrt 2.
    expect('figure' in weighed && weighed.figure.expandedUncertainty).toBeCloseTo(
      1.959963985 * 0.1 * Math.SQRT2,
      8,
    );
  });

  it('takes the worst of several moments of one kind', () => {
    const moment = (momentTM: number) =>
      ({
        kind: 'lifting',
        words: `${momentTM}`,
        momentTM: () => momentTM,
        measured: null,
      }) as const;
    const heel: Requirement = {
      quantity: { kind: 'heel-under-moment', moment: 'lifting' },
      bound: 'at-most',
      limit: { kind: 'fixed', value: 10, unit: 'deg' },
    };
    const both = figure(heel, { moments: [moment(3), moment(8), moment(5)] });
    expect(both.value).toBe(figure(heel, { moments: [moment(8)] }).value);
  });
});
