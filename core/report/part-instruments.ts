import type { AccuracyAnswer } from '../reading/as-accurate.ts';
import type { Certificate } from '../sample/certificate.ts';
import { sessionSelfChecks } from '../session/session-self-checks.ts';
import { facts, heading, note, table, tableOr } from './blocks.ts';
import type { Block } from './document.ts';
import { fixed, signed, significant } from './figure.ts';
import { metres, NOT_STATED, percent, writtenWords } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';

const ACCURACY_WORDS: Readonly<Record<AccuracyAnswer, string>> = {
  shown: 'shown',
  'shown-worse': 'shown to be worse',
  'not-shown': 'not shown',
};

/** The instruments, how they agree, what the texts ask of them, and their certificates. */
export function partInstruments(day: ReportedDay): Block[] {
  const { session } = day;
  return [
    heading(1, 'Instruments'),
    ...instrumentTable(day),
    heading(2, 'How they agree, compared within states'),
    ...agreementBlocks(day),
    heading(2, 'What the texts ask of the angle instruments'),
    ...askBlocks(day),
    heading(2, 'Certificates in force'),
    ...session.certificates.flatMap((one) => certificateBlocks(one, day)),
    ...changedBlocks(day),
  ];
}

function instrumentTable({ result, session }: ReportedDay): Block[] {
  return [
    tableOr(
      [
        ['Instrument', 16],
        ['Kind', 14],
        ['Readings', 11, 'right'],
        ['Share', 8, 'right'],
        ['At no moment, °', 19, 'right'],
        ['GM by it alone, m', 19, 'right'],
        ['Not used because', 18],
      ],
      result.instruments.map((one) => [
        one.label,
        kindWords(
          one.readByHand,
          session.mountings.find(({ instrument }) => instrument === one.instrument)?.kind,
        ),
        String(one.readings),
        one.weight === null ? '–' : percent(one.weight),
        one.interceptDeg === null ? '–' : pair(one.interceptDeg),
        one.gmAloneM === null ? '–' : metres(one.gmAloneM).replace(/ m$/, ''),
        one.refused ?? '',
      ]),
      'No instrument stood in this test.',
    ),
    note('Share: its weight in the mean of a state that all instruments are read in.'),
  ];
}

function kindWords(readByHand: boolean, kind: string | undefined): string {
  if (readByHand) return 'read by hand';
  return kind === undefined ? 'sensor' : kind.replace('-', ' ');
}

function pair(one: { readonly value: number; readonly halfWidth95: number }): string {
  return `${fixed(one.value, 4)} ± ${significant(one.halfWidth95, 2)}`;
}

function agreementBlocks({ result, session }: ReportedDay): Block[] {
  const checks = sessionSelfChecks(session);
  const selfChecks = checks.some(({ zeroReturnDeg }) => zeroReturnDeg !== null) ? checks : [];
  const { instruments, besidePendulums, atLeastAsAccurate } = result.agreement;
  const labelOf = (instrument: string) =>
    instruments.find((one) => one.instrument === instrument)?.label ?? instrument;
  return [
    tableOr(
      [
        ['Against the mean of the others', 26],
        ['States', 8, 'right'],
        ['Offset, °', 14, 'right'],
        ['uncertain by, °', 14, 'right'],
        ['Scale, share', 14, 'right'],
        ['uncertain by', 12, 'right'],
        ['Scatter, °', 12, 'right'],
      ],
      instruments.map((one) => [
        one.label,
        String(one.states),
        signed(one.offsetDeg, 4),
        significant(one.offsetUncertaintyDeg, 2),
        signed(one.scaleDifference, 5),
        significant(one.scaleUncertainty, 2),
        significant(one.scatterDeg, 2),
      ]),
      'There are too few instruments or states to compare.',
    ),
    ...(besidePendulums.length === 0
      ? []
      : [
          table(
            [
              ['Sensor', 25],
              ['beside', 25],
              ['At least as accurate?', 30],
              ['States read blind', 20, 'right'],
            ],
            besidePendulums.map((one) => [
              labelOf(one.instrument),
              one.pendulum,
              ACCURACY_WORDS[one.answer],
              `${one.blindStates} of ${one.states}`,
            ]),
          ),
          facts(
            atLeastAsAccurate.map(({ label, answer }) => [
              `${label}, against all pendulums`,
              ACCURACY_WORDS[answer],
            ]),
          ),
        ]),
    note(
      'Uncertain by: one standard uncertainty. An offset is the zero of a mounting and does no harm; a difference of scale goes into GM as it is.',
    ),
    heading(2, 'Each against itself: does the zero return'),
    tableOr(
      [
        ['Instrument', 40],
        ['Zero return, °', 30, 'right'],
        ['uncertain by, °', 30, 'right'],
      ],
      selfChecks.map((one) => [
        labelOf(one.instrument),
        one.zeroReturnDeg === null ? 'not read again' : signed(one.zeroReturnDeg, 4),
        one.zeroReturnErrorDeg === null ? '–' : significant(one.zeroReturnErrorDeg, 2),
      ]),
      'No arrangement of the first state was read again.',
    ),
    note(
      'The last reading of the first arrangement less the first one, cleared of the median of three or more instruments, which is the vessel’s own list.',
    ),
  ];
}

function askBlocks({ result }: ReportedDay): Block[] {
  return [
    table(
      [
        ['Asked', 40],
        ['Met', 8],
        ['Found', 20],
        ['Clause', 32],
      ],
      result.agreement.pendulums.asks.map(({ asks, met, found, source }) => [
        asks,
        met ? 'met' : 'not met',
        found,
        source,
      ]),
    ),
  ];
}

/** A certificate as facts; the calibration's own document has every raw pair. */
function certificateBlocks(one: Certificate, { session }: ReportedDay): Block[] {
  const mounting = session.mountings.find(({ instrument }) => instrument === one.instrument);
  return [
    facts([...certificateRows(one), ...(mounting === undefined ? [] : mountingRows(mounting))]),
  ];
}

export function certificateRows(one: Certificate): [string, string][] {
  const { item, standard, proven } = one;
  return [
    ['Certificate', `${one.number}, ${one.date}, made by ${one.madeBy}`],
    ['Instrument', one.instrument],
    ['Method', one.method],
    [
      'Part, board, bus, address',
      item === undefined ? NOT_STATED : [item.part, item.board, item.bus, item.address].join(', '),
    ],
    ['Seal', item?.seal ?? NOT_STATED],
    ['Zero, in the unit of the fit', significant(one.zero, 6)],
    [
      'Scale',
      `${significant(one.scale, 8)}, standard uncertainty ${significant(100 * one.scaleUncertainty, 3)} %`,
    ],
    [
      'Standard',
      standard === undefined
        ? NOT_STATED
        : `${standard.number}; ${significant(100 * standard.commonShare, 3)} % shared by all instruments of it`,
    ],
    ['Left over by the fit', significant(one.leftOver, 4)],
    [
      'Largest residual, hysteresis, repeatability',
      proven === undefined
        ? 'not shown'
        : [proven.largestResidual, proven.hysteresis, proven.repeatability]
            .map((figure) => (figure === null ? 'not shown' : significant(figure, 3)))
            .join('; '),
    ],
    [
      'Temperature',
      one.temperatureC === null ? NOT_STATED : `${significant(one.temperatureC, 4)} °C`,
    ],
  ];
}

function mountingRows(mounting: ReportedDay['session']['mountings'][number]): [string, string][] {
  const { sign, spanM, heightOverRollAxisM, settlingS } = mounting;
  return [
    [
      'Mounted as',
      `${mounting.label}, ${mounting.kind.replace('-', ' ')}, ${sign === 1 ? 'growing' : 'falling'} with starboard down` +
        (spanM === null ? '' : `, legs ${significant(spanM, 6)} m apart`),
    ],
    [
      'Height over the roll axis; settles in',
      `${significant(heightOverRollAxisM, 5)} m; ${significant(settlingS, 4)} s`,
    ],
  ];
}

function changedBlocks({ session }: ReportedDay): Block[] {
  const rows = [
    ...session.replacedCertificates.map(({ certificate, written, reason }) => [
      certificate.instrument,
      `certificate ${certificate.number} replaced`,
      reason,
      writtenWords(written),
    ]),
    ...session.remounted.map(({ instrument, certificate, written, reason }) => [
      instrument,
      certificate === null
        ? 'put down anew'
        : `put down anew or exchanged, until then under certificate ${certificate.number}`,
      reason,
      writtenWords(written),
    ]),
  ];
  if (rows.length === 0) return [];
  return [
    heading(2, 'What was changed about the instruments'),
    table(
      [
        ['Instrument', 15],
        ['What', 25],
        ['Reason', 30],
        ['By whom', 30],
      ],
      rows,
    ),
  ];
}
