import { describe, expect, it } from 'vitest';
import type { HeelingMoment } from '#core/stability/evidence.ts';
import { momentAnswers } from '#core/stability/moment-quantities.ts';
import { leversOf, madeEvidence } from '../../support/made-evidence.ts';

const levers = leversOf(
  (heel) => 0.4 * Math.sin(2 * heel),
  (heel) => 0.2 * (1 - Math.cos(2 * heel)),
);

const steady = (momentTM: number, more: Partial<HeelingMoment> = {}): HeelingMoment => ({
  kind: 'lifting',
  words: 'a load',
  momentTM: () => momentTM,
  measured: null,
  ...more,
});

const ask = (
  moments: readonly HeelingMoment[],
  of: Parameters<typeof momentAnswers>[1],
  floodsRad: number | null = null,
) =>
  momentAnswers(
    {
      evidence: madeEvidence({
        levers,
        moments,
        displacementT: 50,
        downfloodingRad: () => floodsRad,
      }),
      side: 'port',
      method: 'exact',
    },
    of,
  );

const residual = { moment: 'lifting', toDeg: 90, stops: 'weathertight' } as const;

describe('quantities under a moment', () => {
  it('the heel of rest, the freeboard left, what was read instead of computed', () => {
    const heel = { kind: 'heel-under-moment', moment: 'lifting' } as const;
    const freeboard = { kind: 'freeboard-under-moment', moment: 'lifting' } as const;
    // 10 t m on 50 t: 0.2 m of lever, met at 15 degrees.
    expect(ask([steady(10)], heel)).toMatchObject([{ value: expect.closeTo(15, 10) }]);
    expect(ask([steady(10)], freeboard)).toMatchObject([
      { value: expect.closeTo(0.6 - 2.5 * Math.sin(Math.PI / 12), 10) },
    ]);
    const read = steady(10, { measured: { heelRad: 0.1, leastFreeboardM: 0.31 } });
    expect(ask([read], heel)).toMatchObject([
      { value: expect.closeTo(5.7296, 4), note: 'as-read' },
    ]);
    expect(ask([read], freeboard)).toMatchObject([{ value: 0.31, note: 'as-read' }]);
    // GM = 57.3 moment / (degrees displacement) = 10 / (0.1 50).
    expect(ask([read], { kind: 'gm-of-heel', moment: 'lifting' })).toMatchObject([{ value: 2 }]);
    expect(ask([steady(10)], { kind: 'gm-of-heel', moment: 'lifting' })).toMatchObject([
      { code: 'heel-not-read' },
    ]);
  });

  it('no rest is 90 degrees and no freeboard, never a pass', () => {
    expect(ask([steady(21)], { kind: 'heel-under-moment', moment: 'lifting' })).toMatchObject([
      { value: 90, note: 'no-rest' },
    ]);
    expect(ask([steady(21)], { kind: 'residual-area', ...residual })).toMatchObject([
      { value: 0, note: 'no-rest' },
    ]);
    expect(ask([steady(21)], { kind: 'freeboard-under-moment', moment: 'lifting' })).toMatchObject([
      { known: false },
    ]);
  });

  it('what is left over the heeling lever, in closed form', () => {
    const net = 0.4 * Math.cos(Math.PI / 6) - (0.2 * Math.PI) / 3;
    const lost = (0.2 * Math.PI) / 12 - 0.2 * (1 - Math.cos(Math.PI / 6));
    expect(ask([steady(10)], { kind: 'residual-lever', ...residual })).toMatchObject([
      { value: expect.closeTo(0.2, 10) },
    ]);
    expect(ask([steady(10)], { kind: 'residual-area', ...residual })).toMatchObject([
      { value: expect.closeTo(net, 10) },
    ]);
    expect(ask([steady(10)], { kind: 'sudden-moment', ...residual })).toMatchObject([
      { value: expect.closeTo(net / lost, 9) },
    ]);
    const to = 0.2 * (Math.cos(Math.PI / 6) - Math.cos(1)) - 0.2 * (0.5 - Math.PI / 12);
    expect(ask([steady(10)], { kind: 'residual-area', ...residual }, 0.5)).toMatchObject([
      { value: expect.closeTo(to, 10) },
    ]);
    expect(ask([steady(10)], { kind: 'residual-area', ...residual }, 0.2)).toMatchObject([
      { value: 0, note: 'floods-before' },
    ]);
  });

  it('each of several of one kind, and that none is given', () => {
    const heel = { kind: 'heel-under-moment', moment: 'lifting' } as const;
    expect(ask([steady(10), steady(5), steady(3, { kind: 'towing' })], heel)).toHaveLength(2);
    expect(ask([steady(3, { kind: 'towing' })], heel)).toMatchObject([
      { code: 'moment-not-given', detail: 'lifting' },
    ]);
  });
});
