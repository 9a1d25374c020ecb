import type { ReductionOutput } from '../reduction/reduction-output.ts';
import { entriesOf } from '../session/survey-state.ts';
import { facts, heading, note, paragraph, tableOr } from './blocks.ts';
import type { Block } from './document.ts';
import { fixed, measured, signed, significant } from './figure.ts';
import { FREEBOARD_FIGURE, figureFreeboards } from './figure-freeboards.ts';
import { NOT_STATED } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';

const MM_PER_POINT = 25.4 / 72;

/** How she floated: freeboards, marks, water, hydrostatics and their source, and the tanks. */
export function partFloat(day: ReportedDay): Block[] {
  const float = day.reduction.reduction?.float ?? null;
  return [
    heading(1, 'Freeboards, water and hydrostatics'),
    ...sourceBlocks(day, float),
    heading(2, 'Freeboards'),
    ...freeboardBlocks(day, float),
    heading(2, 'Draught marks'),
    ...markBlocks(day),
    heading(2, 'Water'),
    ...waterBlocks(day),
    heading(2, 'Tanks'),
    ...tankBlocks(day, float),
    heading(2, 'Spaces looked into'),
    ...spaceBlocks(day),
  ];
}

type Float = NonNullable<ReductionOutput['float']>;
type FloatFigure = Float['displacement'];
const figureWords = (one: FloatFigure) => measured(one.value, one.halfWidth95, one.unit);

function sourceBlocks({ session, reduction }: ReportedDay, float: Float | null): Block[] {
  const hull = entriesOf(session.survey, 'hull')[0];
  const source =
    hull === undefined
      ? 'none entered: displacement and KM are as stated when the test was opened'
      : `${hull.value.file} (${hull.value.form}), line ${hull.written.line}; volume uncertain by ${significant(100 * hull.value.volumeUncertaintyShare, 3)} %, KM by ${significant(hull.value.kmUncertaintyM, 3)} m`;
  const refused =
    reduction.refused === null ? [] : [['Not reduced because', reduction.refused.found] as const];
  if (float === null) return [facts([['Source of hydrostatics', source], ...refused])];
  return [
    facts([
      ['Source of hydrostatics', source],
      ['Displacement as inclined', figureWords(float.displacement)],
      ['KM upright', figureWords(float.km)],
      ['LCB forward of the after perpendicular', figureWords(float.lcb)],
      ['VCB, TCB', `${significant(float.vcb, 5)} m, ${significant(float.tcb, 4)} m`],
      ['Density of the water', figureWords(float.density)],
      [
        'Moulded draught aft, midships, forward',
        [float.draughtAft, float.draughtMidships, float.draughtForward]
          .map((one) => `${fixed(one, 3)} m`)
          .join(', '),
      ],
      ['Trim, by the stern positive', `${signed(float.trim, 3)} m`],
      ['Sag, hog below zero', `${signed(1000 * float.sag, 1)} mm`],
      ['Heel by the waterline', `${signed(float.heelDeg, 3)}°`],
    ]),
  ];
}

function freeboardBlocks({ session }: ReportedDay, float: Float | null): Block[] {
  const freeboards = entriesOf(session.survey, 'freeboard');
  const closing = entriesOf(session.survey, 'freeboard', 'closing');
  if (freeboards.length === 0) return [paragraph('No freeboard was entered.')];
  const pointOf = (name: string) => float?.points.find(({ point }) => point === name);
  const drawn = freeboards.map(({ key, value }) => ({
    side: value.side,
    xM: value.xM,
    waterM: value.heightM - value.freeboardM,
    leftOverM: pointOf(key)?.leftOver ?? null,
    point: key,
  }));
  return [
    {
      kind: 'figure',
      svg: figureFreeboards(drawn),
      widthMm: FREEBOARD_FIGURE.width * MM_PER_POINT,
      heightMm: FREEBOARD_FIGURE.height * MM_PER_POINT,
      caption:
        'Height of the water over the baseline at each freeboard, along the vessel; filled to starboard, open to port. Lines: the fitted plane with hog or sag.',
      words: `Height of the water at ${freeboards.length} freeboards along the vessel.`,
    },
    tableOr(
      [
        ['Point', 22],
        ['Side', 12],
        ['x, m', 11, 'right'],
        ['Half breadth, m', 13, 'right'],
        ['Height, m', 11, 'right'],
        ['Freeboard, m', 13, 'right'],
        ['At the end, m', 12, 'right'],
        ['Left over, mm', 12, 'right'],
      ],
      freeboards.map(({ key, value }) => {
        const found = pointOf(key);
        const again = closing.find((one) => one.key === key);
        return [
          found?.bad === true ? `${key} (off)` : key,
          value.side,
          significant(value.xM, 6),
          significant(value.halfBreadthM, 6),
          significant(value.heightM, 6),
          fixed(value.freeboardM, 3),
          again === undefined ? '–' : fixed(again.value.freeboardM, 3),
          found === undefined ? '–' : signed(1000 * found.leftOver, 1),
        ];
      }),
      '',
    ),
  ];
}

function markBlocks({ session }: ReportedDay): Block[] {
  return [
    tableOr(
      [
        ['Mark', 30],
        ['Side', 16],
        ['x, m', 18, 'right'],
        ['Draught read, m', 18, 'right'],
        ['Zero over baseline, m', 18, 'right'],
      ],
      entriesOf(session.survey, 'mark').map(({ key, value }) => [
        key,
        value.side,
        significant(value.xM, 6),
        fixed(value.draughtM, 3),
        significant(value.zeroHeightM, 6),
      ]),
      'No draught mark was read.',
    ),
  ];
}

function waterBlocks({ session }: ReportedDay): Block[] {
  const rows = (['before', 'closing'] as const).flatMap((occasion) =>
    entriesOf(session.survey, 'water', occasion).map(({ key, value }) => [
      key,
      occasion === 'before' ? 'before' : 'at the end',
      significant(value.densityKgM3, 6),
      value.temperatureC === null ? NOT_STATED : significant(value.temperatureC, 4),
    ]),
  );
  return [
    tableOr(
      [
        ['Place and depth of the sample', 40],
        ['When', 20],
        ['Density, kg/m³', 20, 'right'],
        ['Temperature, °C', 20, 'right'],
      ],
      rows,
      'No sample of the water was taken.',
    ),
  ];
}

function tankBlocks({ session }: ReportedDay, float: Float | null): Block[] {
  const before = entriesOf(session.survey, 'tank');
  const closing = entriesOf(session.survey, 'tank', 'closing');
  return [
    tableOr(
      [
        ['Tank', 26],
        ['Density, t/m³', 15, 'right'],
        ['Sounding, m', 14, 'right'],
        ['At the end, m', 14, 'right'],
        ['Volume, m³', 15, 'right'],
        ['Mass, t', 16, 'right'],
      ],
      before.map(({ key, value }) => {
        const found = float?.liquids.find(({ tank }) => tank === key);
        const volume = found?.volume ?? value.volumeM3;
        return [
          key,
          significant(value.densityTM3, 5),
          value.sounding === undefined ? '–' : fixed(value.sounding.depthM, 3),
          depthOf(closing.find((one) => one.key === key)?.value.sounding),
          volume === undefined ? '–' : significant(volume, 5),
          found === undefined ? '–' : significant(found.mass, 5),
        ];
      }),
      'No tank was entered.',
    ),
    note('A tank not listed was entered neither as empty nor as full.'),
  ];
}

function depthOf(sounding: { readonly depthM: number } | undefined): string {
  return sounding === undefined ? '–' : fixed(sounding.depthM, 3);
}

function spaceBlocks({ session }: ReportedDay): Block[] {
  return [
    tableOr(
      [
        ['Space', 40],
        ['Sounded', 15],
        ['Opened and seen', 20],
        ['By', 25],
      ],
      entriesOf(session.survey, 'space').map(({ key, value }) => [
        key,
        value.sounded ? 'yes' : 'no',
        value.opened ? 'yes' : 'no',
        value.by ?? 'nobody named',
      ]),
      'No space was entered: free liquid is not excluded.',
    ),
  ];
}
