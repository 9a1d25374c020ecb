import { describe, expect, it } from 'vitest';
import { marksOf, reachDeg } from '#ui/show/batten.ts';

describe('the batten', () => {
  it('gives repeated states one mark', () => {
    const marks = marksOf(
      [
        { state: 0, heelDeg: 0.041 },
        { state: 1, heelDeg: 1.409 },
        { state: 4, heelDeg: 0.043 },
      ],
      0.1,
    );
    expect(marks.map((mark) => mark.numbers)).toEqual([[0, 4], [1]]);
  });

  it('reaches over every reading, the same to both sides', () => {
    expect(reachDeg([0.04, -2.7])).toBe(4);
    expect(reachDeg([])).toBe(2);
  });
});
