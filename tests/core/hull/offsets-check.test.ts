import { describe, expect, it } from 'vitest';
import { checkSection, checkSizes } from '#core/hull/offsets-check.ts';
import type { Section } from './hulls.ts';

const points = (section: Section) =>
  section.map(([yM, zM], k) => ({ yM, zM, knuckle: false, where: `row ${k + 2}` }));
const check = (...section: Section) => checkSection(points(section));

describe('a section of the table of offsets', () => {
  it('may have a flat bottom, a chine turned down, tumblehome and repeated points', () => {
    check([0, 0], [3, 0], [3, 3]);
    check([1, 0], [3, 0.2], [3, 3]);
    check([0, 0], [2, 0.5], [2.1, 0.48], [2.1, 0.48], [2.4, 2]);
    check([0, 0], [2.6, 0.5], [2.7, 1.5], [2.5, 2.5]);
    check([0, 0.3], [0, 3]);
  });

  it('refuses points that have changed places', () => {
    expect(() => check([0, 0], [1.5, 0.4], [1, 0.2], [1.8, 0.6])).toThrow(/hull-order.*row 4/);
    expect(() => check([0, 0], [3, 0.4], [3, 0.2], [3, 0.6])).toThrow('hull-order');
    expect(() => check([0, 0], [2.9, 0.8], [2.95, 0.7], [2.8, 0.9])).toThrow('hull-order');
  });

  it('refuses an outline that crosses itself', () => {
    expect(() => check([0, 0], [2, 1], [2.2, 0.6], [1.2, 0.7], [1.4, 2])).toThrow('hull-crossing');
  });

  it('knows a tunnel and a twin hull', () => {
    expect(() => check([0, 0.5], [0.6, 0.1], [2, 0.4], [2.4, 2])).toThrow('hull-tunnel');
    expect(() => check([1.2, 1.5], [1.5, 0.2], [2.2, 0.2], [2.6, 2])).toThrow('hull-twin');
  });

  it('takes a flat bottom taped a few millimetres out for what it is, no tunnel', () => {
    check([0, 0.004], [1.5, 0], [2.9, 0.003], [3, 1.5], [3, 3]);
    expect(() => check([0, 0.05], [1.5, 0], [3, 0.1], [3, 3])).toThrow('hull-tunnel');
  });

  it('refuses half-breadths of the other side', () => {
    const station = {
      xM: 0,
      points: points([
        [0, 0],
        [-2, 1],
      ]),
    };
    expect(() => checkSizes([station])).toThrow(/hull-asymmetric.*row 3/);
  });
});
