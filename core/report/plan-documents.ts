import type { PlanInput } from '../reduction/plan-input.ts';
import type { PlanOutput } from '../reduction/plan-output.ts';
import { facts, heading, listOr, note, paragraph, tableOr } from './blocks.ts';
import type { Block, ReportDocument } from './document.ts';
import { fixed, measured, significant } from './figure.ts';
import { placeWords } from './part-day.ts';

/** A plan as it was given and what it will show. */
export interface Planned {
  readonly plan: PlanInput;
  readonly forecast: PlanOutput;
  /** Day the document is written (ISO 8601 with time). */
  readonly wall: string;
}

/** The plan of a test with what an authority asks to be told before it (IS Code B 8.2.1.1; gaps to be filled in ink). */
export function planLetter({ plan, forecast, wall }: Planned): ReportDocument {
  return {
    ...frameOf('Notification and plan of an inclining test', plan, wall),
    blocks: [
      { kind: 'title', text: `Inclining test: ${plan.name}` },
      paragraph(
        'Notice is given of an inclining test, with the procedure below. Comments and accepted variances are asked for before the day.',
      ),
      {
        kind: 'ink',
        lines: [
          'To (authority)',
          'Vessel, number',
          'Place, date and time',
          'Responsible person',
          'Approximate draughts and trim',
          'Tanks: which full, empty, slack',
          'To be added, taken off, moved',
          'How the weights are moved',
          'Comments and accepted variances',
        ],
      },
      heading(1, 'What is expected'),
      facts([
        ['Displacement', statedWords(plan.displacementT, 't')],
        ['KM upright', plan.kmM === undefined ? 'not known' : statedWords(plan.kmM, 'm')],
        ['GM (fluid) by guess', statedWords(plan.gmGuessM, 'm')],
        ['± of GM to be expected', measured(forecast.gmM.value, forecast.gmM.halfWidth95, 'm')],
        [
          '± of KG to be expected',
          forecast.kgM === null
            ? 'KM is not known'
            : measured(forecast.kgM.value, forecast.kgM.halfWidth95, 'm'),
        ],
        ['Greatest heel, port and starboard', greatestHeels(forecast)],
        ['Program', 'heelwright; classical line, metacentre’s movement taken out, exact equation'],
      ]),
      heading(2, 'Weights'),
      tableOr(
        [
          ['Weight', 18],
          ['Mass, t', 20, 'right'],
          ['Standard uncertainty, t', 24, 'right'],
          ['First place: x, y, z, m', 38, 'right'],
        ],
        plan.weights.map(({ weight, massT, standardUncertaintyT, at }) => [
          weight,
          significant(massT, 7),
          significant(standardUncertaintyT, 3),
          placeWords(at),
        ]),
        'No weight is stated.',
      ),
      heading(2, 'Instruments'),
      tableOr(
        [
          ['Instrument', 40],
          ['Reads', 30],
          ['Length or span, mm', 30, 'right'],
        ],
        plan.instruments.map(({ instrument, reads, lengthMm }) => [
          instrument,
          reads.replace('-', ' '),
          lengthMm === undefined ? '–' : significant(lengthMm, 6),
        ]),
        'No instrument is stated.',
      ),
      heading(2, 'Shifts'),
      shiftTable(plan, forecast),
      ...safetyBlocks(forecast),
      heading(2, 'What is to be thought over'),
      tableOr(
        [
          ['What', 44],
          ['Found', 14, 'right'],
          ['Limit', 14, 'right'],
          ['Clause', 28],
        ],
        forecast.advice.map(({ means, found, limit, unit, clause }) => [
          means,
          found === null ? '–' : `${significant(found, 4)} ${unit}`.trim(),
          limit === null ? '–' : `${significant(limit, 4)} ${unit}`.trim(),
          clause,
        ]),
        'Nothing.',
      ),
      { kind: 'ink', lines: ['Naval architect', 'Signature, date'] },
    ],
  };
}

/** For the day the laptop fails: the expected values, and room to write what is read by hand. */
export function paperSheet({ plan, forecast, wall }: Planned): ReportDocument {
  const instruments = plan.instruments.filter(({ reads }) => reads !== 'heel').slice(0, 3);
  return {
    ...frameOf('Paper sheet of an inclining test', plan, wall),
    blocks: [
      { kind: 'title', text: `On paper: ${plan.name}` },
      paragraph(
        'To go on with by hand. Write three or five successive extremes of each swing, starboard positive, the time, and both initials. What is typed in later is marked as taken from paper.',
      ),
      { kind: 'ink', lines: ['Vessel, place, date', 'Readers', 'Wind, lines, depth'] },
      heading(1, 'Expected before each shift'),
      shiftTable(plan, forecast),
      ...safetyBlocks(forecast),
      { kind: 'page' },
      heading(1, 'Read by hand'),
      tableOr(
        [
          ['State', 8],
          ['Time', 11],
          ...instruments.map(({ instrument }) => [`${instrument}: extremes, mm`, 24] as const),
          ['Initials', 12],
        ],
        [0, ...forecast.shifts.map(({ state }) => state)].map((state) => [
          `${state}\n `,
          '',
          ...instruments.map(() => ''),
          '',
        ]),
        '',
      ),
      note(
        'Rest: of each three extremes in a row (first + 2 × second + third) / 4; the mean of those. Tangent of heel: rest over length.',
      ),
      heading(2, 'Freeboards and water'),
      tableOr(
        [
          ['Point', 20],
          ['Port, before', 20],
          ['Starboard, before', 20],
          ['Port, at the end', 20],
          ['Starboard, at the end', 20],
        ],
        ['1', '2', '3', '4', '5'].map((point) => [`${point}\n `, '', '', '', '']),
        '',
      ),
      {
        kind: 'ink',
        lines: ['Density, temperature, depth of sample', 'Soundings', 'Architect', 'Witness'],
      },
    ],
  };
}

function frameOf(title: string, plan: PlanInput, wall: string) {
  return {
    ...{ title, wall, language: 'en', marks: ['Plan: no reading is taken yet'], attachments: [] },
    subject: plan.name,
    foot: `${title}, ${wall.slice(0, 10)}`,
  };
}

function statedWords(one: { value: number; standardUncertainty: number }, unit: string): string {
  return `${significant(one.value, 7)} ${unit}, standard uncertainty ${significant(one.standardUncertainty, 3)} ${unit}`;
}

function greatestHeels({ shifts }: PlanOutput): string {
  const port = Math.max(0, ...shifts.map(({ heelDeg }) => -heelDeg));
  const starboard = Math.max(0, ...shifts.map(({ heelDeg }) => heelDeg));
  return `${fixed(port, 2)}° and ${fixed(starboard, 2)}°`;
}

function shiftTable(plan: PlanInput, { shifts }: PlanOutput): Block {
  const instruments = [
    ...new Set(shifts.flatMap(({ deflections }) => deflections.map((one) => one.instrument))),
  ].slice(0, 4);
  return tableOr(
    [
      ['State', 8],
      ['Weights to', 24],
      ['Moment, t·m', 13, 'right'],
      ['Heel, °', 10, 'right'],
      ['if stiff to if tender, °', 18, 'right'],
      ['STOP at, °', 11, 'right'],
      ...instruments.map((instrument) => [`${instrument}, mm`, 12, 'right'] as const),
    ],
    shifts.map((shift, k) => [
      String(shift.state),
      (plan.shifts[k]?.moves ?? [])
        .map(({ weight, to }) => `${weight} to y ${significant(to.yM, 5)} m`)
        .join(', '),
      fixed(shift.heelingMomentTM, 4),
      fixed(shift.heelDeg, 2),
      `${fixed(shift.heelIfStiffDeg, 2)} to ${shift.heelIfTenderDeg === null ? 'over' : fixed(shift.heelIfTenderDeg, 2)}`,
      shift.heelDeg === 0 ? '–' : fixed(shift.stopDeg, 2),
      ...instruments.map((instrument) => {
        const own = shift.deflections.find((one) => one.instrument === instrument);
        return own === undefined ? '–' : fixed(own.mm, 0);
      }),
    ]),
    'No shift is planned.',
  );
}

function safetyBlocks({ beforeTheFirstShift, stopRules, safety }: PlanOutput): Block[] {
  return [
    heading(2, 'Before the first shift'),
    listOr(beforeTheFirstShift, ''),
    heading(2, 'Stop'),
    listOr([...stopRules, ...safety], ''),
  ];
}
