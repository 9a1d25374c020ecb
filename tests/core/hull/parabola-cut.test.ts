import { expect, it } from 'vitest';
import { addCrossing, addCutParabola } from '#core/hull/parabola-cut.ts';

const sums = () => new Float64Array(6);

it('sees a parabola that dips under water between dry ends', () => {
  // 0.4 deep and sqrt(0.8) wide at the water: area two thirds of the box about it.
  const found = sums();
  addCutParabola(1, 0.1, 1.5, -0.4, 2, 0.1, 1, found);
  expect(found[0]).toBeCloseTo((2 / 3) * 0.4 * Math.sqrt(0.8), 12);
  expect(found[3]).toBeCloseTo(Math.sqrt(0.8), 12);
  expect(found[4]).toBeCloseTo(1.5 * Math.sqrt(0.8), 12);
});

it('sees one that comes up between wet ends, and one that crosses once', () => {
  const up = sums();
  addCutParabola(0, -0.1, 0.5, 0.4, 1, -0.1, 1, up);
  expect(up[3]).toBeCloseTo(-Math.sqrt(0.8), 12);
  const once = sums();
  addCutParabola(0, -1, 0.5, -0.25, 1, 0.5, 1, once);
  expect(once[3]).toBeCloseTo(2 / 3, 12);
  // Straight by its nodes: a triangle between it, the water and its foot.
  expect(once[0]).toBeCloseTo(((2 / 3) * 1) / 2, 12);
});

it('leaves out one that stays dry, though its handle lies under water', () => {
  const dry = sums();
  addCutParabola(0, 0.5, 0.5, 0.05, 1, 0.5, 1, dry);
  expect([...dry]).toEqual([0, 0, 0, 0, 0, 0]);
});

it('counts the two ends of a waterline against each other', () => {
  const line = sums();
  addCrossing(3, 1, line);
  addCrossing(1, -1, line);
  expect([...line].slice(3)).toEqual([2, 4, 26 / 3]);
});
