import { describe, expect, it } from 'vitest';
import { handReading, timeMark } from '#core/record/reading-line.ts';

const TUBE = {
  ...{ state: 0, instrument: 'T', kind: 'u-tube', lengthMm: 8000, reader: 'R. Vane' },
  extremesMm: [24.2, 28.1, 25],
  portLegMm: [300.4, 298, 299.5],
  starboardLegMm: [324.6, 326.1, 324.5],
};
const takes = (change: object) => handReading.safeParse({ ...TUBE, ...change }).success;

describe('both legs of a tube', () => {
  it('make the differences, but for the last place of a sum of decimals', () => {
    expect(takes({})).toBe(true);
    expect(takes({ extremesMm: [24.2, 28.1, 25.1] })).toBe(false);
    // The wrong way round would heel her to the other side.
    expect(takes({ extremesMm: [-24.2, -28.1, -25] })).toBe(false);
  });

  it('are read together, as often as the difference, and of a tube only', () => {
    expect(takes({ portLegMm: undefined })).toBe(false);
    expect(takes({ portLegMm: undefined, starboardLegMm: undefined })).toBe(true);
    expect(takes({ starboardLegMm: [324.6, 326.1] })).toBe(false);
    expect(takes({ kind: 'pendulum' })).toBe(false);
  });
});

it('a time mark is numbered from one', () => {
  expect(timeMark.safeParse({ mark: 1, words: '' }).success).toBe(true);
  for (const mark of [0, 1.5, 1000])
    expect(timeMark.safeParse({ mark, words: '' }).success).toBe(false);
  expect(takes({ mark: 2 })).toBe(true);
  expect(takes({ mark: 0 })).toBe(false);
});
