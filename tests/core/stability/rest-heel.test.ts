import { expect, test } from 'vitest';
import { restHeelRad } from '#core/stability/rest-heel.ts';
import { leversThrough } from '#core/stability/sampled-levers.ts';

const HEELS = Array.from({ length: 91 }, (_, k) => (k * Math.PI) / 180);
/** Both sides of a lever that is 0 at `list`, positive where she is heeled further to starboard. */
const sides = (lever: (heelRad: number) => number) => (side: 'starboard' | 'port') => {
  const way = side === 'starboard' ? 1 : -1;
  return leversThrough(
    HEELS,
    HEELS.map((heel) => way * lever(way * heel)),
  );
};

test.each([-0.4, -0.01, 0.02, 0.3])('a list of %d rad, whichever side', (list) => {
  expect(restHeelRad(sides((heel) => Math.sin(heel - list)))).toBeCloseTo(list, 4);
});

test('upright, lolling to starboard, nowhere', () => {
  expect(restHeelRad(sides((heel) => Math.sin(heel)))).toBe(0);
  expect(restHeelRad(sides((heel) => heel ** 3 - 0.04 * heel))).toBeCloseTo(0.2, 3);
  expect(restHeelRad(sides((heel) => -Math.sin(heel)))).toBeNull();
  expect(restHeelRad(sides((heel) => -0.2 - Math.sin(heel)))).toBeNull();
});
