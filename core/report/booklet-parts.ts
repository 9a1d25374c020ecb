import type { SpaceTable } from '../condition/space-table.ts';
import type { LoadingInput } from '../stability/loading-input.ts';
import type { StabilityOutput } from '../stability/stability-output.ts';
import { facts, heading, note, paragraph, table, tableOr } from './blocks.ts';
import type { Block } from './document.ts';
import { fixed, significant } from './figure.ts';

/** Limiting KG at one displacement, as it stands in the booklet. */
export interface BookletLimit {
  readonly displacementT: number;
  readonly trimM: number;
  /** Null: some clause is not met at any KG. */
  readonly kgM: number | null;
  /** What is not met just above. */
  readonly governing: readonly string[];
}

export interface BookletAsked {
  readonly input: LoadingInput;
  readonly answer: StabilityOutput;
  readonly spaces: readonly SpaceTable[];
  readonly limits: readonly BookletLimit[];
  readonly revision: number;
  /** Blocks of the revision before; null: there is none, or it is not at hand. */
  readonly earlier: readonly Block[] | null;
  /** Day of the booklet (ISO 8601 with time). */
  readonly wall: string;
}

export function particularBlocks({ input }: BookletAsked): Block[] {
  const { particulars } = input;
  const metres = (value: number | undefined) =>
    value === undefined ? 'not stated' : `${significant(value, 6)} m`;
  return [
    heading(1, 'Particulars and reference planes'),
    facts([
      ...Object.entries(particulars.lengthsM).map(
        ([measure, value]) => [`Length, ${measure}`, metres(value)] as const,
      ),
      [
        'Beam; depth to the upper deck',
        `${metres(particulars.beamM)}; ${metres(particulars.depthM)}`,
      ],
      ['Built on', particulars.builtOn ?? 'not stated'],
      [
        'Services; waters',
        `${particulars.services?.join(', ') ?? 'not stated'}; ${particulars.waters ?? 'not stated'}`,
      ],
      ['Hull file', input.hull],
      ['Water', `${significant(input.densityKgM3, 6)} kg/m³`],
      [
        'Not counted as buoyant',
        (input.notCounted ?? []).join(', ') || 'every superstructure of the hull file counts',
      ],
    ]),
    note(
      'x forward from the after perpendicular, y to starboard from the centreline, z up from the baseline. Trim is positive by the stern, heel starboard down.',
    ),
    heading(2, 'Arrangement and tank plan'),
    paragraph('The architect’s drawings are bound in after this page.'),
  ];
}

export function lightshipBlocks({ input: { lightship } }: BookletAsked): Block[] {
  const row = (name: string, one: LoadingInput['lightship']['mass'], unit: string) =>
    [
      name,
      `${significant(one.value, 6)} ${unit}, ${one.standardUncertainty === undefined ? 'uncertainty not known' : `standard uncertainty ${significant(one.standardUncertainty, 3)} ${unit}`}`,
    ] as const;
  return [
    heading(1, 'Lightship and its basis'),
    facts([
      row('Mass', lightship.mass, 't'),
      row('LCG, forward of the after perpendicular', lightship.lcg, 'm'),
      row('TCG, to starboard', lightship.tcg, 'm'),
      row('VCG, over the baseline', lightship.vcg, 'm'),
      ['Basis', lightship.source ?? 'not stated'],
      ['Permanent ballast', 'as the report of the inclining test lists it'],
    ]),
    paragraph('The report of the inclining test, with its record, belongs to this booklet.'),
  ];
}

export function spaceBlocks({ spaces }: BookletAsked): Block[] {
  return [
    heading(1, 'Tanks and holds'),
    tableOr(
      [
        ['Space', 28],
        ['Use', 16],
        ['Capacity, m³', 14, 'right'],
        ['Density, t/m³', 14, 'right'],
        ['Centre when full: x, y, z, m', 28, 'right'],
      ],
      spaces.map((one) => [
        one.space,
        one.use.replace('-', ' '),
        fixed(one.volumeM3, 3),
        significant(one.densityTM3, 5),
        [one.xM, one.yM, one.zM].map((value) => fixed(value, 3)).join(', '),
      ]),
      'No space is stated.',
    ),
    ...spaces.flatMap((one) =>
      one.soundings.length === 0
        ? []
        : [
            heading(2, `Soundings of ${one.space}`),
            table(
              [
                ['Sounding, m', 25, 'right'],
                ['Volume, m³', 25, 'right'],
                ['Mass, t', 25, 'right'],
                ['Share', 25, 'right'],
              ],
              one.soundings.map(({ depthM, volumeM3 }) => [
                fixed(depthM, 2),
                fixed(volumeM3, 3),
                fixed(volumeM3 * one.densityTM3, 3),
                `${fixed((100 * volumeM3) / one.volumeM3, 0)} %`,
              ]),
            ),
          ],
    ),
    note('Soundings upright and on an even keel.'),
  ];
}

const KEPT = {
  shut: 'kept shut at sea',
  'open-at-sea': 'open at sea',
  'open-at-worst': 'open at the worst moment only',
} as const;

export function openingBlocks({ input, answer }: BookletAsked): Block[] {
  const named = new Map(input.openings.map(({ opening, kept }) => [opening, KEPT[kept]]));
  const all = [
    ...new Set(
      answer.conditions.flatMap(({ sides }) =>
        sides.flatMap(({ openings }) => openings.map(({ opening }) => opening)),
      ),
    ),
  ];
  return [
    heading(1, 'Openings and cross-connections'),
    tableOr(
      [
        ['Opening', 50],
        ['How it is kept', 50],
      ],
      all.map((opening) => [
        opening,
        named.get(opening) ?? 'kept shut at sea where anything shuts it',
      ]),
      'The hull file names no opening.',
    ),
    paragraph(
      'Cross-connections between tanks are kept shut at sea; every condition takes them as shut.',
    ),
  ];
}

export function limitBlocks({ limits }: BookletAsked): Block[] {
  return [
    heading(1, 'Limits'),
    tableOr(
      [
        ['Displacement, t', 20, 'right'],
        ['Trim, m', 14, 'right'],
        ['Greatest KG (solid), m', 24, 'right'],
        ['What is not met just above', 42],
      ],
      limits.map(({ displacementT, trimM, kgM, governing }) => [
        fixed(displacementT, 2),
        fixed(trimM, 3),
        kgM === null ? 'none' : fixed(kgM, 3),
        governing.join('; '),
      ]),
      'No limit was asked for.',
    ),
    note(
      'Every clause that is judged is met a hundredth of a millimetre under the KG and one is not the same above, with no allowance for the uncertainty of her own KG: compare the upper value of that with it. The tanks that are slack in the first condition are taken as slack.',
    ),
  ];
}
