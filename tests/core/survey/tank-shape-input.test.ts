import { expect, test } from 'vitest';
import { liquidBelow } from '#core/survey/tank-liquid.ts';
import { tankShapeFrom, tankShapeInput } from '#core/survey/tank-shape-input.ts';

const BOX = { kind: 'rectangular', fromXM: 1, toXM: 3, fromYM: -1, toYM: 1, fromZM: 0, toZM: 2 };

test('a box and its outlines hold the same', () => {
  const outline = [
    { yM: -1, zM: 0 },
    { yM: 1, zM: 0 },
    { yM: 1, zM: 2 },
    { yM: -1, zM: 2 },
  ];
  const sections = [1, 3].map((xM) => ({ xM, outline }));
  const level = { heelSlope: 0.1, trimSlope: 0.02 };
  expect(liquidBelow(tankShapeFrom(tankShapeInput.parse(BOX)), 1, level)).toEqual(
    liquidBelow(tankShapeFrom({ kind: 'sections', sections }), 1, level),
  );
});

test('a shape that holds nothing is refused', () => {
  expect(() => tankShapeFrom(tankShapeInput.parse({ ...BOX, toXM: 1 }))).toThrow(/input-range/);
  const outline = [
    { yM: 0, zM: 0 },
    { yM: 1, zM: 0 },
    { yM: 1, zM: 1 },
  ];
  const sections = [3, 1].map((xM) => ({ xM, outline }));
  expect(() => tankShapeFrom({ kind: 'sections', sections })).toThrow(/input-contradiction/);
});
