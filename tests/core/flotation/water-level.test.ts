import { expect, test } from 'vitest';
import { waterLevels } from '#core/flotation/water-level.ts';
import { freeboardsOf, marksOf } from '#tests/core/flotation/a-float.ts';

const LEVEL = { middleM: 1.4, trimSlope: 0, heelSlope: 0, sagM: 0 };

test('a freeboard hangs from the deck edge, a mark counts from its zero', () => {
  for (const level of waterLevels(freeboardsOf(LEVEL), marksOf(LEVEL))) {
    expect(level.heightM).toBeCloseTo(1.4, 12);
    expect(Math.sign(level.yM)).toBe(level.side === 'starboard' ? 1 : -1);
  }
});

test('millimetres given for metres, and a name that stands twice, are refused', () => {
  const [first, ...rest] = freeboardsOf(LEVEL);
  expect(() => waterLevels([{ ...first!, freeboardM: 980 }], [])).toThrow(/input-range/);
  expect(() => waterLevels([first!, { ...rest[0]!, point: first!.point }], [])).toThrow(
    /input-contradiction/,
  );
  const many = Array.from({ length: 61 }, (_, i) => ({ ...first!, point: String(i) }));
  expect(() => waterLevels(many, [])).toThrow(/input-too-large/);
});
