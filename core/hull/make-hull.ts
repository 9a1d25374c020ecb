import { Fault } from '../fault/fault.ts';
import type { Body } from './body.ts';
import { belowDeck, deckAt } from './deck-line.ts';
import type { Hull } from './hull.ts';
import type { HullInput, SectionInput } from './hull-input.ts';
import { checkedOffsets, type OffsetStation, type OffsetTable } from './offsets.ts';
import { bodyFromOutlines } from './outline-body.ts';
import { pairedBody } from './paired-body.ts';
import { sectionCurve } from './section-curve.ts';

/** All of a hull file but its table of offsets, which has been read already. */
export type HullParts = Omit<HullInput, 'offsets'>;

/**
 * A hull from its checked table of offsets and the rest of its file. A table alone makes a hull whose
 * offsets are the outside of the shell and whose deck edge is the top of each section. Throws
 * `hull-deck`, `hull-offsets`, `input-contradiction` and what `checkedOffsets` throws.
 */
export function hullFromOffsets(table: OffsetTable, parts: HullParts): Hull {
  const shellThicknessM = shellOf(parts);
  const main = mainBody(table, parts, shellThicknessM);
  const bodies: Body[] = [main];
  for (const one of parts.appendages ?? []) {
    const sign = one.effect === 'buoyant' ? 1 : -1;
    const make = one.shape === 'pair' ? pairedBody : centreBody;
    bodies.push(make(one.name, sign, one.sections));
  }
  for (const block of parts.superstructures ?? []) bodies.push(blockBody(block));
  const fromXM = main.xM[0]!;
  const toXM = main.xM.at(-1)!;
  const aftXM = parts.perpendiculars?.aftXM ?? fromXM;
  const forwardXM = parts.perpendiculars?.forwardXM ?? toXM;
  if (!(forwardXM > aftXM)) {
    throw new Fault('input-contradiction', 'perpendiculars', `${aftXM} m and ${forwardXM} m`);
  }
  return {
    name: parts.name,
    fromXM,
    toXM,
    aftXM,
    forwardXM,
    offsetsAre: parts.offsetsAre,
    shellThicknessM,
    main,
    // The last node closes the body on the centre plane.
    deckNode: main.nodes - 2,
    bodies,
    openings: parts.openings ?? [],
  };
}

/** The table of offsets of a hull file that holds it itself. */
export function offsetsFromSections(sections: readonly SectionInput[], name: string): OffsetTable {
  const byX = new Map<number, OffsetStation['points'][number][]>();
  sections.forEach((section, i) => {
    const points = byX.get(section.xM) ?? [];
    section.points.forEach((point, k) => {
      const where = `${name}: section ${i + 1}, point ${k + 1}, halfBreadthM`;
      points.push({ yM: point.halfBreadthM, zM: point.zM, knuckle: point.knuckle ?? false, where });
    });
    byX.set(section.xM, points);
  });
  const stations = [...byX].map(([xM, points]) => ({ xM, points })).sort((a, b) => a.xM - b.xM);
  return checkedOffsets(stations, name);
}

function shellOf(parts: HullParts): number {
  if (parts.offsetsAre === 'outside') {
    if (parts.shellThicknessM === undefined || parts.shellThicknessM === 0) return 0;
    throw new Fault(
      'input-contradiction',
      'shellThicknessM',
      'offsets of the outside have no shell outside them',
    );
  }
  if (parts.shellThicknessM === undefined) {
    throw new Fault(
      'input-contradiction',
      'shellThicknessM',
      'moulded offsets need the thickness of the shell',
    );
  }
  return parts.shellThicknessM;
}

function mainBody(table: OffsetTable, parts: HullParts, shellM: number): Body {
  const stations =
    parts.deckLine === undefined
      ? table.stations.map(({ xM, points }) => ({ xM, curve: sectionCurve(points), camberM: 0 }))
      : belowDeck(table, deckAt(parts.deckLine));
  const [fromXM, toXM] = [stations[0]!.xM, stations.at(-1)!.xM];
  const keelLine = table.keelLine.filter(({ xM }) => xM > fromXM && xM < toXM);
  return bodyFromOutlines({ name: parts.name, sign: 1, stations, shellM, keelLine });
}

function centreBody(name: string, sign: 1 | -1, sections: readonly SectionInput[]): Body {
  const stations = [...sections]
    .sort((a, b) => a.xM - b.xM)
    .map((section) => ({
      xM: section.xM,
      curve: sectionCurve(
        section.points.map((point) => ({
          yM: point.halfBreadthM,
          zM: point.zM,
          knuckle: point.knuckle ?? false,
        })),
      ),
      camberM: 0,
    }));
  return bodyFromOutlines({ name, sign, stations, shellM: 0 });
}

function blockBody(block: NonNullable<HullInput['superstructures']>[number]): Body {
  if (!(block.toXM > block.fromXM) || !(block.toZM > block.fromZM)) {
    throw new Fault(
      'input-contradiction',
      `superstructure ${block.name}`,
      'it has no length or no height',
    );
  }
  const points = [
    { zM: block.fromZM, halfBreadthM: block.halfBreadthM },
    { zM: block.toZM, halfBreadthM: block.halfBreadthAtTopM ?? block.halfBreadthM },
  ];
  return centreBody(block.name, 1, [
    { xM: block.fromXM, points },
    { xM: block.toXM, points },
  ]);
}
