import type { Hull } from '#core/hull/hull.ts';
import { hullFromOffsets } from '#core/hull/make-hull.ts';
import { checkedOffsets } from '#core/hull/offsets.ts';

/** Half-breadth and height of each point of a section. */
export type Section = readonly (readonly [yM: number, zM: number])[];

/** A hull from sections, offsets taken as the outside of the shell. */
export function hullOf(sections: readonly (readonly [xM: number, section: Section])[]): Hull {
  const table = checkedOffsets(
    sections.map(([xM, section]) => ({
      xM,
      points: section.map(([yM, zM]) => ({ yM, zM, knuckle: false, where: `x ${xM}` })),
    })),
    'a test',
  );
  return hullFromOffsets(table, { name: 'a test', offsetsAre: 'outside' });
}

export function evenly(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
}

/** The same section all along. */
export function prism(lengthM: number, stations: number, section: Section): Hull {
  return hullOf(evenly(0, lengthM, stations).map((xM) => [xM, section] as const));
}

/** Half an ellipse's points from keel to waterline and above it on, centre at height c. */
export function ellipseSection(a: number, c: number, points: number, upToRad = Math.PI): Section {
  return evenly(0, upToRad, points).map((angle) => [
    // The top of a whole ellipse lies on the centre plane.
    angle === Math.PI ? 0 : a * Math.sin(angle),
    c - c * Math.cos(angle),
  ]);
}

/** Parabolic in both directions, walls above the design draught: volume 4/9 L B T up to it. */
export function wigley(
  lengthM: number,
  beamM: number,
  draughtM: number,
  stations: number,
  waterlines: number,
): Hull {
  return hullOf(
    evenly(0, lengthM, stations).map((xM) => {
      const along = (2 * xM) / lengthM - 1;
      const half = (beamM / 2) * (1 - along * along);
      const wet = evenly(0, draughtM, waterlines).map((z): [number, number] => {
        const down = (draughtM - z) / draughtM;
        return [half * (1 - down * down), z];
      });
      return [xM, [...wet, [half, draughtM + 1]]] as const;
    }),
  );
}
