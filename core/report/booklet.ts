import type { SpaceTable } from '../condition/space-table.ts';
import { TRIP_QUESTIONS, type TripQuestionCode } from '../condition/trip.ts';
import type { LoadingInput } from '../stability/loading-input.ts';
import type { ConditionAnswer, StabilityOutput } from '../stability/stability-output.ts';
import { facts, heading, listOr, note, paragraph, table, tableOr } from './blocks.ts';
import { bookletCondition, judged, notMet } from './booklet-condition.ts';
import { bookletWheelhouse } from './booklet-wheelhouse.ts';
import { markChanged } from './changed-blocks.ts';
import type { Attachment, Block, ReportDocument } from './document.ts';
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

/** The stability booklet of a loading file: one document, every figure the command's own. */
export function stabilityBooklet(asked: BookletAsked): ReportDocument {
  const { answer, revision, wall, earlier } = asked;
  const blocks = bookletBlocks(asked);
  return {
    title: 'Stability booklet',
    subject: `${answer.vessel}, revision ${revision}, ${wall.slice(0, 10)}`,
    language: 'en',
    wall,
    marks: [
      ...(answer.invented ? ['Rehearsal: an invented vessel'] : []),
      ...(answer.questions.length > 0 ? ['Provisional: questions are open'] : []),
      'Draft: not examined by an authority',
      'Unsigned',
    ],
    foot: `${answer.vessel}, stability booklet, revision ${revision}`,
    blocks: earlier === null ? blocks : markChanged(blocks, earlier),
    attachments: attachmentsOf(asked, blocks),
  };
}

/** What was computed, and the blocks themselves, against which the next revision is compared. */
function attachmentsOf({ input, answer }: BookletAsked, blocks: readonly Block[]): Attachment[] {
  const json = (name: string, description: string, value: unknown): Attachment => ({
    ...{ name, description, type: 'application/json' },
    bytes: new TextEncoder().encode(`${JSON.stringify(value, null, 1)}\n`),
  });
  return [
    json('loading.json', 'The loading file the booklet is made of', input),
    json('stability.json', 'Every figure, as the command gives it', answer),
    json('revision.json', 'What stands in this revision, for the next to be compared with', blocks),
  ];
}

function bookletBlocks(asked: BookletAsked): Block[] {
  const { answer, revision, wall } = asked;
  return [
    { kind: 'title', text: `Stability booklet of ${answer.vessel}` },
    facts([
      ['Revision', String(revision)],
      ['Date', wall.slice(0, 10)],
      ['Lightship from', answer.lightshipSource ?? 'not stated'],
      [
        'Rules',
        [
          ...new Set(
            answer.conditions.flatMap(({ ruleSets }) => ruleSets.map(({ title }) => title)),
          ),
        ].join('; '),
      ],
    ]),
    ...answer.standing.map(paragraph),
    heading(1, 'Every condition at a glance'),
    summaryTable(answer.conditions),
    ...questionBlocks(answer),
    ...particularBlocks(asked),
    ...lightshipBlocks(asked),
    ...spaceBlocks(asked),
    ...openingBlocks(asked),
    ...limitBlocks(asked),
    ...answer.conditions.flatMap(bookletCondition),
    ...bookletWheelhouse(asked.input, answer),
    ...closingBlocks(),
  ];
}

function summaryTable(conditions: readonly ConditionAnswer[]): Block {
  return tableOr(
    [
      ['Condition', 30],
      ['Displacement, t', 13, 'right'],
      ['Draught, m', 10, 'right'],
      ['KG, m', 9, 'right'],
      ['GM (fluid), m', 11, 'right'],
      ['Clauses judged', 10, 'right'],
      ['Counts as met', 17],
    ],
    conditions.map((one) => [
      one.condition,
      fixed(one.displacementT, 2),
      fixed(one.draughtMeanM, 3),
      fixed(one.kgM, 3),
      fixed(one.gmFluidM, 3),
      String(judged(one)),
      judged(one) === 0
        ? 'nothing judged'
        : notMet(one).length === 0
          ? 'yes'
          : `NO: ${notMet(one).length} not met`,
    ]),
    'No condition.',
  );
}

function questionBlocks({ questions }: StabilityOutput): Block[] {
  if (questions.length === 0) return [];
  return [
    heading(2, 'To be settled before this booklet is used'),
    listOr(
      questions.map(
        ({ code, where }) => `${where}: ${TRIP_QUESTIONS[code as TripQuestionCode] ?? code}`,
      ),
      '',
    ),
  ];
}

function particularBlocks({ input }: BookletAsked): Block[] {
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

function lightshipBlocks({ input: { lightship } }: BookletAsked): Block[] {
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

function spaceBlocks({ spaces }: BookletAsked): Block[] {
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

function openingBlocks({ input, answer }: BookletAsked): Block[] {
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

function limitBlocks({ limits }: BookletAsked): Block[] {
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

function closingBlocks(): Block[] {
  return [
    { kind: 'page' },
    heading(1, 'Assumptions and changes'),
    listOr(
      [
        'Levers are of the hull file’s own surface, free to trim, in still water; what the rules ask for is judged and nothing else.',
        'Every liquid lies level at each heel; tanks stated full or empty have no free surface.',
        'Openings are as stated above. An opening kept otherwise makes every curve another.',
        'Her lightship grows: every thing that comes aboard or leaves for good is written down with its mass and place.',
        'A new look is needed after a change of more than 2 % of the lightship’s mass or 1 % of the length in its LCG (A.749(18) 7.1.3 for passenger ships), after any change of gear, ballast, tanks or openings, and after what the authority says.',
      ],
      '',
    ),
    heading(1, 'Declaration of the owner'),
    paragraph(
      'The conditions of this booklet are the worst in which she is worked; what was changed on her since the inclining test is listed in it.',
    ),
    { kind: 'ink', lines: ['Owner', 'Signature, date', 'Naval architect', 'Signature, date'] },
    { kind: 'page' },
    heading(1, 'For the authority'),
    paragraph('This page is left for the authority.'),
  ];
}
