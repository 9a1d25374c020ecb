import { Fault } from '../fault/fault.ts';
import type { Body } from './body.ts';
import { bodyFromNodes, fairNodeLines } from './build-body.ts';
import type { SectionInput } from './hull-input.ts';

type Pair = readonly [number, number];

/**
 * A pair of bodies off the centre plane (bilge keels, twin shafts), given by closed outlines of the
 * starboard one with as many points in every section, joined by straight lines.
 */
export function pairedBody(name: string, sign: 1 | -1, sections: readonly SectionInput[]): Body {
  const sorted = [...sections].sort((a, b) => a.xM - b.xM);
  const count = sorted[0]!.points.length;
  const where = `appendage ${name}`;
  if (count < 3) throw new Fault('input-too-few', where, `${count} points in its outline`);
  const places = sorted.map((section) => {
    if (section.points.length !== count) {
      throw new Fault(
        'input-unequal-length',
        where,
        `${section.points.length} points at x ${section.xM}, ${count} before`,
      );
    }
    return section.points.map((point): Pair => [point.halfBreadthM, point.zM]);
  });
  const turn = places.reduce((sum, nodes) => sum + doubleArea(nodes), 0);
  // Outlines run with the body on their left hand.
  const turned = turn < 0 ? places.map((nodes) => [...nodes].reverse()) : places;
  const xM = sorted.map((section) => section.xM);
  const { coming, leaving } = fairNodeLines(xM, turned);
  const nodes = places[0]!.map((_, k) => k);
  return bodyFromNodes({
    name,
    sign,
    xM,
    edges: nodes.map((k) => [k, -1, (k + 1) % count]),
    corners: nodes,
    places: turned,
    coming,
    leaving,
  });
}

function doubleArea(nodes: readonly Pair[]): number {
  return nodes.reduce((sum, [y, z], k) => {
    const [yNext, zNext] = nodes[(k + 1) % nodes.length]!;
    return sum + y * zNext - yNext * z;
  }, 0);
}
