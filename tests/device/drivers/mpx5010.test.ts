import { expect, it } from 'vitest';
import { mpx5010 } from '#device/drivers/mpx5010.ts';

it('is read at +-6.144 V, so that 5 V fit, sensor and supply in turn', () => {
  // C1 83 and D1 83: start, AIN0 or AIN1, PGA 000, single shot, 128 a second, comparator off.
  expect(mpx5010.steps(20_000).map(({ write, when }) => [when, ...write])).toEqual([
    ['always'],
    ['even', 0xc1, 0x83],
    ['odd', 0xd1, 0x83],
  ]);
  expect(mpx5010.quantities).toEqual(['leg', 'supply']);
});

it('is never found by looking: a converter does not tell what is wired to it', () => {
  expect(mpx5010.foundByLooking).toBe(false);
});
