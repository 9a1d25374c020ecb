import { expect, it } from 'vitest';
import { cutBodies } from '#core/hull/cut.ts';
import { pairedBody } from '#core/hull/paired-body.ts';

const outline = [
  { zM: 0, halfBreadthM: 2 },
  { zM: 0, halfBreadthM: 3 },
  { zM: 1, halfBreadthM: 3 },
];
const sections = [0, 4].map((xM) => ({ xM, points: outline }));

it('is the same in either sense of going round, on both sides of the ship', () => {
  const backward = sections.map(({ xM, points }) => ({ xM, points: [...points].reverse() }));
  for (const given of [sections, backward]) {
    const body = pairedBody('fins', 1, given);
    expect(cutBodies([body], { heelRad: 0, trimRad: 0, levelM: 5 }).volumeM3).toBeCloseTo(4, 12);
    const half = cutBodies([body], { heelRad: 0, trimRad: 0, levelM: 0.5 });
    expect(half.volumeM3).toBeCloseTo(4 * (1 - 0.25), 12);
    expect(half.areaM2).toBeCloseTo(2 * 4 * 0.5, 12);
    // Heeled far to starboard only the starboard fin is wet.
    const heeled = cutBodies([body], { heelRad: Math.PI / 2, trimRad: 0, levelM: 0 });
    expect(heeled.volumeM3).toBeCloseTo(2, 12);
    expect(heeled.momentYM4 / heeled.volumeM3).toBeCloseTo(2 + 2 / 3, 12);
  }
});

it('refuses outlines that do not match', () => {
  const short = [sections[0]!, { xM: 4, points: outline.slice(0, 2) }];
  expect(() => pairedBody('fins', 1, short)).toThrow('input-unequal-length');
  const lines = sections.map(({ xM }) => ({ xM, points: outline.slice(0, 2) }));
  expect(() => pairedBody('fins', 1, lines)).toThrow('input-too-few');
});
