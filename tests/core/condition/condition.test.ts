import fc from 'fast-check';
import { expect, test } from 'vitest';
import { loadedCondition } from '#core/condition/condition.ts';
import { lightshipInput } from '#core/condition/lightship-input.ts';
import { spacesFrom } from '#core/condition/space.ts';

const lightship = lightshipInput.parse({
  mass: { value: 40, standardUncertainty: 0.4 },
  lcg: { value: 6.5 },
  tcg: { value: 0 },
  vcg: { value: 1.8, standardUncertainty: 0.02 },
});
const spaces = spacesFrom([
  {
    space: 'fuel',
    use: 'fuel',
    densityTM3: 0.85,
    shape: { kind: 'rectangular', fromXM: 2, toXM: 4, fromYM: -1, toYM: 1, fromZM: 0.5, toZM: 1.5 },
  },
]);
const parts = { name: 'departure', lightship, spaces };

test('lightship, liquid and item add by mass and moment', () => {
  const found = loadedCondition({
    ...parts,
    fillings: [{ space: 'fuel', share: 0.5 }],
    items: [{ item: 'boxes', use: 'catch', massT: 2, at: { xM: 5, yM: 0.5, zM: 1 } }],
  });
  expect(found.moments.massT).toBeCloseTo(40 + 1.7 + 2, 12);
  expect(found.centre.zM).toBeCloseTo((40 * 1.8 + 1.7 * 0.75 + 2) / 43.7, 12);
  expect(found.centre.yM).toBeCloseTo(1 / 43.7, 12);
  expect(found.freeSurfaceTM).toBeCloseTo((0.85 * 2 * 8) / 12, 10);
  expect(found.rows.map(({ kind }) => kind)).toEqual(['lightship', 'liquid', 'item']);
});

test('an uncertain item is a cause of its own, each coordinate by itself', () => {
  const at = { xM: 5, yM: 0, zM: 1 };
  const item = { item: 'boxes', use: 'catch' as const, massT: 2, at };
  const found = loadedCondition({
    ...parts,
    fillings: [],
    items: [{ ...item, massUncertaintyT: 0.1, placeUncertaintyM: 0.2 }],
  });
  const own = found.causes!.filter(({ cause }) => cause.includes('boxes'));
  expect(own.map(({ massT, zTM }) => [massT, zTM])).toEqual([
    [0.1, 0.1],
    [0, 0],
    [0, 0],
    [0, 0.4],
  ]);
});

test('the order of what is aboard changes nothing; a space filled twice is refused', () => {
  const item = fc.record({
    item: fc.constant('x'),
    use: fc.constant('gear' as const),
    massT: fc.double({ min: 0, max: 5, noNaN: true }),
    at: fc.record({
      xM: fc.double({ min: 0, max: 15, noNaN: true }),
      yM: fc.double({ min: -2, max: 2, noNaN: true }),
      zM: fc.double({ min: 0, max: 5, noNaN: true }),
    }),
  });
  fc.assert(
    fc.property(fc.array(item, { maxLength: 8 }), (items) => {
      const one = loadedCondition({ ...parts, fillings: [], items });
      const other = loadedCondition({ ...parts, fillings: [], items: [...items].reverse() });
      expect(other.centre.zM).toBeCloseTo(one.centre.zM, 12);
      expect(other.moments.massT).toBeCloseTo(one.moments.massT, 12);
    }),
  );
  const twice = [
    { space: 'fuel', share: 0.1 },
    { space: 'fuel', share: 0.2 },
  ];
  expect(() => loadedCondition({ ...parts, fillings: twice, items: [] })).toThrow(/filled twice/);
});
