import { describe, expect, it } from 'vitest';
import { curveUpTo, knucklesOf, sectionCurve } from '#core/hull/section-curve.ts';
import { ellipseSection, evenly, type Section } from './hulls.ts';

const curveOf = (section: Section) => sectionCurve(section.map(([yM, zM]) => ({ yM, zM })));

describe('the outline of a section', () => {
  it('keeps chine and straight sides exactly', () => {
    const chine = curveOf([
      [0, 0],
      [2, 0.5],
      [2.5, 2],
    ]);
    expect(chine.knuckles).toHaveLength(1);
    expect(chine.at(chine.knuckles[0]!)[0]).toBeCloseTo(2, 12);
    const [y, z] = chine.at(chine.knuckles[0]! / 2);
    expect(y).toBeCloseTo(1, 12);
    expect(z).toBeCloseTo(0.25, 12);
  });

  it('is level at the keel of a round bottom and follows the circle to 2e-5 of its radius', () => {
    const circle = curveOf(ellipseSection(2, 2, 10, Math.PI / 2));
    expect(circle.knuckles).toEqual([]);
    for (const share of evenly(0, 1, 200)) {
      const [y, z] = circle.at(share);
      expect(Math.abs(Math.hypot(y, 2 - z) - 2)).toBeLessThan(4e-5);
    }
    expect(circle.at(1e-4)[1]).toBeLessThan(1e-7);
  });

  it('passes through every given point', () => {
    const section = ellipseSection(3, 1.5, 12);
    const curve = curveOf(section);
    section.forEach(([y, z], k) => {
      const [foundY, foundZ] = curve.at(curve.points[k]!);
      expect(foundY).toBeCloseTo(y, 10);
      expect(foundZ).toBeCloseTo(z, 10);
    });
  });

  it('takes a repeated point and a marked one for a knuckle, however little it turns', () => {
    const smooth = ellipseSection(2, 2, 19, Math.PI / 2);
    const repeated = [...smooth.slice(0, 9), smooth[8]!, ...smooth.slice(9)];
    expect(curveOf(repeated).knuckles).toHaveLength(1);
    const marked = smooth.map(([yM, zM], k) => ({ yM, zM, knuckle: k === 8 }));
    expect(knucklesOf(marked)).toHaveLength(1);
    expect(knucklesOf(marked)[0]!.turnDeg).toBeCloseTo(5, 1);
  });

  it('leaves a straight side over a bilge arc straight', () => {
    const arc = evenly(0, Math.PI / 2, 6).map((a): [number, number] => [
      2 + 0.5 * Math.sin(a),
      0.5 - 0.5 * Math.cos(a),
    ]);
    const curve = curveOf([[0, 0], ...arc, [2.5, 3]]);
    expect(curve.knuckles).toEqual([]);
    const from = curve.points.at(-2)!;
    for (const share of evenly(from, 1, 9)) expect(curve.at(share)[0]).toBeCloseTo(2.5, 3);
    const middle = curve.points[1]! / 2;
    expect(curve.at(middle)[1]).toBeCloseTo(0, 4);
  });

  it('is cut at a height, and refuses one it does not reach', () => {
    const curve = curveOf([
      [0, 0],
      [2, 0.5],
      [2.4, 2],
      [2.4, 2],
      [2.5, 2.8],
    ]);
    const cut = curveUpTo(curve, 2, 'x 3');
    expect(cut.at(1)[0]).toBeCloseTo(2.4, 9);
    expect(cut.knuckles).toHaveLength(1);
    expect(() => curveUpTo(curve, 3, 'x 3')).toThrow('hull-deck');
    expect(() => curveUpTo(curve, -1, 'x 3')).toThrow('hull-deck');
  });

  it('is a point where the hull runs to one', () => {
    expect(sectionCurve([{ yM: 0, zM: 2 }]).at(0.7)).toEqual([0, 2]);
  });
});
