import { describe, expect, it } from 'vitest';
import { EARLIER_ROLL } from '#tests/support/roll-run-body.ts';
import { earlierTest, NOTHING_TYPED, numberTyped, testsOfFile } from '../../../ui/roll/earlier.ts';

const typed = {
  ...NOTHING_TYPED,
  date: '2019-05-02',
  condition: ' as inclined ',
  periodS: '4,8',
  halfWidthS: '0.02',
};

describe('an earlier roll test typed off its report', () => {
  it('gives what is kept, her own f with it where a GM was measured', () => {
    const without = earlierTest(typed, 5)!;
    expect(without).toMatchObject({ condition: 'as inclined', periodS: 4.8, gmFluidM: null });
    expect(without.periodUncertaintyS).toBeCloseTo(0.0102, 4);
    const own = earlierTest({ ...typed, gmM: '0.9', gmHalfWidthM: '0.02' }, 5)!;
    // f = T sqrt(GM) / B, and u(f)/f = hypot(u(T)/T, u(GM)/2GM), by hand
    expect(own.ownCoefficient).toBeCloseTo((4.8 * Math.sqrt(0.9)) / 5, 9);
    expect(own.ownCoefficientUncertainty! / own.ownCoefficient!).toBeCloseTo(
      Math.hypot(0.0102 / 4.8, 0.0102 / 0.9 / 2),
      5,
    );
  });

  it.each([
    ['no day', { date: '' }],
    ['no such day', { date: '2019-13-02' }],
    ['no condition', { condition: '' }],
    ['no period', { periodS: '' }],
    ['a period that is no number', { periodS: '4..8' }],
    ['a period without its width', { halfWidthS: '' }],
    ['half a run', { runs: '2.5' }],
    ['a GM without its width', { gmM: '0.9' }],
    ['a width without its GM', { gmHalfWidthM: '0.02' }],
    ['a GM below zero', { gmM: '-0.9', gmHalfWidthM: '0.02' }],
  ])('is none with %s', (_, change) => {
    expect(earlierTest({ ...typed, ...change }, 5)).toBeNull();
  });

  it('takes comma and point, and tells nothing typed from no number', () => {
    expect([numberTyped('1,5'), numberTyped(' '), numberTyped('x')]).toEqual([
      1.5,
      null,
      Number.NaN,
    ]);
  });

  it('or is read from a file of them, and from no other', () => {
    expect(testsOfFile(JSON.stringify({ vessel: 'Marram', tests: [EARLIER_ROLL] }))).toEqual([
      EARLIER_ROLL,
    ]);
    expect(testsOfFile('{"vessel":"Marram"}')).toBeNull();
    expect(testsOfFile('PK')).toBeNull();
  });
});
