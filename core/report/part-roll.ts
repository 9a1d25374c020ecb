import { facts, heading, note, paragraph, tableOr } from './blocks.ts';
import type { Block } from './document.ts';
import { fixed, measured, significant } from './figure.ts';
import type { ReportedDay } from './reported-day.ts';

/** The roll test: every run, the period, and GM by it beside the inclining. */
export function partRoll(day: ReportedDay): Block[] {
  return [
    heading(1, 'Roll period'),
    ...periodBlocks(day),
    heading(2, 'Runs of free roll'),
    tableOr(
      [
        ['Line', 7],
        ['Instrument', 13],
        ['From, s', 11, 'right'],
        ['Cycles', 8, 'right'],
        ['Amplitude, °', 15, 'right'],
        ['Period, s', 16, 'right'],
        ['Not used because', 30],
      ],
      day.session.rollRuns.map(({ written, rolled: { run, instrument }, refused }) => [
        String(written.line),
        instrument,
        fixed(run.fromS, 1),
        fixed(run.cycles, 1),
        `${fixed(run.amplitudeFromDeg, 2)} to ${fixed(run.amplitudeToDeg, 2)}`,
        measured(run.periodS.value, run.periodS.halfWidth95, ''),
        refused?.reason ?? run.refused?.words ?? '',
      ]),
      'No run of free roll was looked for.',
    ),
    ...byTableBlocks(day),
    ...ringDownBlocks(day),
  ];
}

function periodBlocks({ roll, session }: ReportedDay): Block[] {
  const { period, own, kept } = roll;
  if (period === null) return [paragraph('No run of free roll stands.')];
  return [
    facts([
      [
        'Period of roll',
        `${measured(period.periodS.value, period.periodS.halfWidth95, 's')}, ${period.runs} of ${roll.runsAsked} runs asked`,
      ],
      [
        'Damping, share of critical',
        measured(period.dampingRatio.value, period.dampingRatio.halfWidth95, ''),
      ],
      ['Runs', period.runsDiffer ? 'differ by more than each of them leaves open' : 'agree'],
      [
        'Her own f = T √GM / B',
        own === null ? 'not known' : measured(own.value, own.halfWidth95, ''),
      ],
      ['Condition', session.rollCondition?.told.condition ?? 'not said'],
      ...(kept === null ? [] : [['Kept for later tests of hers', kept.condition] as const]),
    ]),
  ];
}

function byTableBlocks({ roll }: ReportedDay): Block[] {
  if (roll.byTable.length === 0) return [];
  return [
    heading(2, 'GM by the coefficients of the table'),
    tableOr(
      [
        ['Condition', 36],
        ['f', 8, 'right'],
        ['GM (fluid), m', 18, 'right'],
        ['Beside the inclining', 38],
      ],
      roll.byTable.map(({ condition, gm, beside }) => [
        condition,
        significant(gm.f, 4),
        gm.halfWidthM === null
          ? significant(gm.gmFluidM, 4)
          : measured(gm.gmFluidM, gm.halfWidthM, ''),
        beside === null ? '–' : beside.words,
      ]),
      '',
    ),
    note(
      'f with its scatter of 0.05 (A.749(18) annex 3, 3.4). Which row fits her is for the architect to say; agreement within the scatter of the coefficient is no evidence. Unreliable at a GM of 0.20 m and under (3.7 and 3.8, from memory).',
    ),
  ];
}

function ringDownBlocks({ result }: ReportedDay): Block[] {
  const { ringDowns } = result;
  if (ringDowns === null) return [];
  return [
    heading(2, 'Roll after each shift, as evidence beside the plot'),
    tableOr(
      [
        ['State', 20],
        ['Period, s', 27, 'right'],
        ['uncertain by, s', 27, 'right'],
        ['Damping, share of critical', 26, 'right'],
      ],
      ringDowns.states.map(({ state, periodS, periodUncertaintyS, dampingRatio }) => [
        String(state),
        fixed(periodS, 3),
        periodUncertaintyS === null ? '–' : significant(periodUncertaintyS, 2),
        significant(dampingRatio, 3),
      ]),
      '',
    ),
    paragraph(
      ringDowns.changes.length === 0
        ? 'No change of period or damping stands out.'
        : ringDowns.changes.map(({ words }) => words).join(' '),
    ),
    ...(ringDowns.periodS === null
      ? []
      : [
          facts([
            [
              'Together',
              `${measured(ringDowns.periodS.value, ringDowns.periodS.halfWidth95, 's')}${ringDowns.sharp ? '' : ', not better than 1 %: no check'}`,
            ],
          ]),
        ]),
  ];
}
