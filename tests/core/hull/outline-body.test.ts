import { expect, it } from 'vitest';
import { cutBodies } from '#core/hull/cut.ts';
import { bodyFromOutlines } from '#core/hull/outline-body.ts';
import { sectionCurve } from '#core/hull/section-curve.ts';
import type { Section } from './hulls.ts';

const station = (xM: number, section: Section, camberM = 0) => ({
  xM,
  curve: sectionCurve(section.map(([yM, zM]) => ({ yM, zM }))),
  camberM,
});
const volume = (body: ReturnType<typeof bodyFromOutlines>) =>
  cutBodies([body], { heelRad: 0, trimRad: 0, levelM: 50 }).volumeM3;

it('closes a flat of bottom, a cambered deck and an end that runs to a point', () => {
  const section: Section = [
    [1, 0],
    [2, 1],
    [2, 2],
  ];
  const body = bodyFromOutlines({
    name: 'b',
    sign: 1,
    shellM: 0,
    stations: [0, 2, 4].map((xM) => station(xM, section, 0.3)),
  });
  expect(volume(body)).toBeCloseTo(4 * (3 + 4 + 0.6), 11);
  const pyramid = bodyFromOutlines({
    name: 'p',
    sign: -1,
    shellM: 0,
    stations: [
      station(0, [
        [0, 0],
        [3, 0],
        [3, 3],
      ]),
      station(9, [[0, 3]]),
    ],
  });
  // 6 x 3 m base, 9 m long; it lets water in, so it counts against.
  expect(volume(pyramid)).toBeCloseTo(-(18 * 9) / 3, 10);
});

it('lets a chine fade into a smooth bow without losing it aft', () => {
  const chined: Section = [
    [0, 0],
    [1, 0.3],
    [2, 0.6],
    [2.2, 2],
  ];
  const body = bodyFromOutlines({
    name: 'b',
    sign: 1,
    shellM: 0,
    stations: [
      station(0, chined),
      station(3, chined),
      station(6, chined),
      station(9, [
        [0, 0.5],
        [0.6, 1.2],
        [1, 2],
      ]),
      station(11, [[0, 2]]),
    ],
  });
  expect(body.corners.length).toBe(4);
  const aft = cutBodies([body], { heelRad: 0, trimRad: 0, levelM: 0.6 });
  expect(aft.areaM2).toBeGreaterThan(4 * 6);
});
