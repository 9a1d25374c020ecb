import { describe, expect, it } from 'vitest';
import { CARRY_S } from '#device/emulated/carrying.ts';
import { Crane } from '#device/emulated/crane.ts';
import { marramReality } from '#device/emulated/marram.ts';

const marks = new Map([
  ['A', { xM: 3, yM: -2.1, zM: 2 }],
  ['B', { xM: 4, yM: -2.1, zM: 2 }],
]);
const reality = { ...marramReality(1), massT: { A: 0.25, B: 0.5 }, realYM: (yM: number) => yM };
const place = (weight: string, yM: number) => ({ weight, xM: weight === 'A' ? 3 : 4, yM, zM: 2 });

describe('the crane', () => {
  it('moves what is asked, one weight after the other, and says when all are down', () => {
    const crane = new Crane(marks, reality);
    crane.order(10, 1, [place('A', 2.1), place('B', 2.1)]);
    expect(crane.carrying(9)).toEqual([]);
    expect(crane.carrying(11)).toEqual(['A', 'B']);
    expect(crane.carrying(10 + CARRY_S)).toEqual(['B']);
    expect(crane.settledState(10 + CARRY_S)).toBe(0);
    expect(crane.carrying(10 + 2 * CARRY_S)).toEqual([]);
    expect(crane.settledState(10 + 2 * CARRY_S)).toBe(1);
    const { transverseTM, verticalTM } = crane.load(100);
    expect(transverseTM).toBeCloseTo(0.25 * 4.2 + 0.5 * 4.2, 12);
    expect(verticalTM).toBe(0);
  });

  it('brings everything back to nothing', () => {
    const crane = new Crane(marks, reality);
    crane.order(0, 1, [place('A', 2.1)]);
    crane.order(5, 2, [place('A', -2.1)]);
    expect(crane.load(100)).toEqual({ transverseTM: 0, verticalTM: 0, outsideTM: 0 });
    expect(crane.settledState(49)).toBe(1);
    expect(crane.settledState(51)).toBe(2);
  });

  it('leaves weights alone that stand where they are asked, and refuses unknown ones', () => {
    const crane = new Crane(marks, reality);
    crane.order(0, 4, [place('A', -2.1), place('B', -2.1)]);
    expect(crane.carrying(1)).toEqual([]);
    expect(crane.settledState(0)).toBe(4);
    expect(() => crane.order(1, 5, [place('Z', 0)])).toThrow(RangeError);
  });
});
