import { NOTES } from '../stability/answer.ts';
import { NOT_JUDGED } from '../stability/judge-clause.ts';
import type { ConditionAnswer } from '../stability/stability-output.ts';
import { facts, heading, note, table, tableOr } from './blocks.ts';
import type { Block } from './document.ts';
import { fixed, measured, signed } from './figure.ts';
import { figureLever, LEVER_FIGURE } from './figure-lever.ts';

const MM_PER_POINT = 25.4 / 72;
const UNITS = { area: 'm·rad', length: 'm', heel: '°', ratio: '' } as const;
const BOUNDS = {
  'at-least': 'at least',
  above: 'over',
  'at-most': 'at most',
  below: 'under',
} as const;
const VERDICTS = {
  met: 'met',
  'met-within-uncertainty': 'met, margin within uncertainty',
  'not-met': 'NOT MET',
  'not-judged': 'not judged',
  'not-asked': 'not asked here',
} as const;
const ANGLES_DEG = [5, 10, 15, 20, 25, 30, 40, 50, 60];

/** One loading condition: weights, how she floats, levers to both sides, and every clause with its margin. */
export function bookletCondition(one: ConditionAnswer): Block[] {
  return [
    { kind: 'page' },
    heading(1, `Condition: ${one.condition}`),
    ...weightBlocks(one),
    ...floatBlocks(one),
    {
      kind: 'figure',
      svg: figureLever(one),
      widthMm: LEVER_FIGURE.width * MM_PER_POINT,
      heightMm: LEVER_FIGURE.height * MM_PER_POINT,
      caption: `Righting levers of “${one.condition}”, free to trim, every liquid level at each heel.`,
      words: `Righting levers to both sides; greatest ${fixed(Math.min(...one.sides.map(({ maximum }) => maximum.leverM)), 3)} m on the weaker side.`,
    },
    leverTable(one),
    ...one.ruleSets.flatMap(ruleSetBlocks),
  ];
}

function weightBlocks(one: ConditionAnswer): Block[] {
  return [
    table(
      [
        ['Weight', 34],
        ['Mass, t', 13, 'right'],
        ['x, m', 12, 'right'],
        ['y, m', 12, 'right'],
        ['z, m', 12, 'right'],
        ['Free surface, t·m', 17, 'right'],
      ],
      [
        ...one.rows.map((row) => [
          row.what,
          ...[row.massT, row.xM, row.yM, row.zM].map((value) => fixed(value, 3)),
          row.freeSurfaceTM === 0 ? '' : fixed(row.freeSurfaceTM, 3),
        ]),
        [
          'Together',
          ...[one.displacementT, one.lcgM, one.tcgM, one.kgM].map((value) => fixed(value, 3)),
          fixed(one.freeSurfaceTM, 3),
        ],
      ],
    ),
  ];
}

function floatBlocks(one: ConditionAnswer): Block[] {
  const kg = one.kgUncertainty;
  return [
    facts([
      [
        'Draught aft, midway, forward',
        [one.draughtAftM, one.draughtMeanM, one.draughtForwardM]
          .map((value) => `${fixed(value, 3)} m`)
          .join(', '),
      ],
      [
        'Trim by the stern; list to starboard',
        `${signed(one.trimM, 3)} m; ${one.listDeg === null ? 'she rests nowhere' : `${signed(one.listDeg, 1)}°`}`,
      ],
      ['Least freeboard to the deck', `${fixed(one.leastFreeboardM, 3)} m`],
      [
        'KM; KG (solid)',
        `${fixed(one.kmTransverseM, 3)} m; ${kg === null ? `${fixed(one.kgM, 3)} m, uncertainty not known` : measured(one.kgM, kg.halfWidth95, 'm')}`,
      ],
      ['GM (solid); GM (fluid)', `${fixed(one.gmSolidM, 3)} m; ${fixed(one.gmFluidM, 3)} m`],
    ]),
  ];
}

function leverTable({ sides }: ConditionAnswer): Block {
  const heels = ANGLES_DEG.filter((wanted) =>
    sides.every(({ points }) => points.some(({ heelDeg }) => heelDeg === wanted)),
  );
  const angle = (value: number | null) =>
    value === null ? 'not within 90°' : `${fixed(value, 1)}°`;
  return tableOr(
    [
      ['Side', 13],
      ...heels.map((heel) => [`${heel}°`, 7, 'right'] as const),
      ['Greatest', 12, 'right'],
      ['Vanishes', 12, 'right'],
      ['Deck edge', 12, 'right'],
    ],
    sides.map((one) => [
      one.side,
      ...heels.map((heel) =>
        fixed(one.points.find(({ heelDeg }) => heelDeg === heel)?.exactM ?? Number.NaN, 3),
      ),
      `${fixed(one.maximum.leverM, 3)} at ${fixed(one.maximum.heelDeg, 0)}°`,
      angle(one.vanishingDeg),
      angle(one.deckEdgeDeg),
    ]),
    'No lever is known.',
  );
}

type SetAnswer = ConditionAnswer['ruleSets'][number];

function ruleSetBlocks(set: SetAnswer): Block[] {
  const outside = set.outside.map(({ field, wanted, found }) => `${field}: ${wanted}, ${found}`);
  return [
    heading(2, set.title),
    note(`${set.source}; ${set.edition}. ${set.notes.join(' ')}`),
    ...(outside.length === 0
      ? []
      : [
          {
            kind: 'notice',
            text: `Outside what these rules apply to: ${outside.join('; ')}`,
          } as const,
        ]),
    tableOr(
      [
        ['Clause', 13],
        ['Asked', 37],
        ['Found', 14, 'right'],
        ['Limit', 14, 'right'],
        ['In hand', 16, 'right'],
        ['Verdict', 18],
      ],
      set.clauses.flatMap(clauseRows),
      'No clause.',
    ),
  ];
}

function clauseRows(clause: SetAnswer['clauses'][number]): string[][] {
  const why =
    clause.notJudged === null
      ? ''
      : `: ${NOT_JUDGED[clause.notJudged.code as keyof typeof NOT_JUDGED] ?? clause.notJudged.code}${clause.notJudged.detail === '' ? '' : ` (${clause.notJudged.detail})`}`;
  const verdict = `${VERDICTS[clause.verdict]}${why}`;
  if (clause.figures.length === 0) return [[clause.printed, clause.words, '–', '–', '–', verdict]];
  return clause.figures.map((figure, k) => {
    const unit = UNITS[figure.dimension];
    const digits = figure.dimension === 'heel' ? 1 : figure.dimension === 'area' ? 4 : 3;
    const half = figure.expandedUncertainty;
    const said =
      figure.note === null ? '' : ` (${NOTES[figure.note as keyof typeof NOTES] ?? figure.note})`;
    return [
      k === 0 ? clause.printed : '',
      k === 0 ? `${clause.words}${said}` : said,
      `${fixed(figure.value, digits)} ${unit}`.trim(),
      `${BOUNDS[figure.bound]} ${fixed(figure.limit, digits)}`,
      half === null
        ? signed(figure.margin, digits)
        : `${signed(figure.margin, digits)} ± ${fixed(half, digits)}`,
      k === 0 ? verdict : '',
    ];
  });
}

/** The judged clauses that do not count as met. */
export function notMet({ ruleSets }: ConditionAnswer): string[] {
  return ruleSets.flatMap(({ clauses }) =>
    clauses
      .filter(({ countsAsMet }) => countsAsMet === false)
      .map(({ printed, words }) => `${printed}: ${words}`),
  );
}

/** How many clauses were judged. */
export function judged({ ruleSets }: ConditionAnswer): number {
  return ruleSets
    .flatMap(({ clauses }) => clauses)
    .filter(({ countsAsMet }) => countsAsMet !== null).length;
}
