import { Fault } from '../fault/fault.ts';
import { deflectionFromHandRead } from '../reading/deflection.ts';
import type { Reading } from '../record/reading-line.ts';
import type { ShiftState, Written } from '../session/session.ts';
import { heading, note, type Row, table, tableOr } from './blocks.ts';
import type { Block } from './document.ts';
import { fixed, signed, significant } from './figure.ts';
import { degreesPair, secondsWords, wallWords, writtenWords } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';

/** Every state, every reading of it by each instrument, accepted or not, and what was read by hand. */
export function partReadings(day: ReportedDay): Block[] {
  const { session, result } = day;
  return [
    heading(1, 'States and readings'),
    heading(2, 'States as they stand in the plot'),
    ...pointBlocks(day),
    heading(2, 'Residuals by instrument'),
    ...residualBlocks(result),
    heading(2, 'Readings by the sensors'),
    tableOr(READING_COLUMNS, session.states.flatMap(readingRows), 'No sensor was read.'),
    note(
      'Window: receiver time of the samples used, in seconds from the start of the receiver’s clock; used: seconds of it that counted. Freedom: degrees of freedom of the ±. Rate: samples a second the estimator was given, smoothed without delay from the board’s own rate; no text asks for a number (the record keeps every count). A reading struck through was voided: it stands in no figure but the one that says so.',
    ),
    heading(2, 'Read by hand'),
    tableOr(HAND_COLUMNS, session.states.flatMap(handRows), 'Nothing was read by hand.'),
    ...flagBlocks(result),
  ];
}

function pointBlocks({ session, result }: ReportedDay): Block[] {
  return [
    tableOr(
      [
        ['State', 7],
        ['Moment, t·m', 13, 'right'],
        ['as fitted, t·m', 13, 'right'],
        ['Tangent', 13, 'right'],
        ['on the line', 13, 'right'],
        ['Residual, °', 12, 'right'],
        ['Predicted heel, °', 15, 'right'],
        ['Heel seen, °', 14, 'right'],
      ],
      result.points.map((point) => {
        const predicted = result.predictions.find(({ state }) => state === point.state);
        return [
          String(point.state),
          fixed(point.heelingMomentTM, 4),
          fixed(point.momentFittedTM, 4),
          fixed(point.tangent, 6),
          fixed(point.fittedTangent, 6),
          signed(point.leftOverDeg, 4),
          predicted === undefined ? '–' : fixed(predicted.predictedHeelDeg, 3),
          predicted === undefined
            ? heelSeen(session.states[point.state])
            : fixed(predicted.seenHeelDeg, 3),
        ];
      }),
      'No state is read.',
    ),
    note(
      'Moment as fitted: with the rise of the weights, and in the official answer the metacentre’s movement, taken to the side of the moment.',
    ),
  ];
}

function heelSeen(state: ShiftState | undefined): string {
  return state?.reading == null ? '–' : fixed(state.reading.joined.heelDeg, 3);
}

/** Residuals state by state; of more than six instruments the rest in a further table. */
function residualBlocks({ points, instruments }: ReportedDay['result']): Block[] {
  const used = instruments.filter(({ readings }) => readings > 0);
  const most = 6;
  const groups = Array.from({ length: Math.ceil(used.length / most) }, (_, k) =>
    used.slice(most * k, most * (k + 1)),
  );
  return groups.map((group) =>
    table(
      [['State', 10], ...group.map(({ label }) => [`${label}, °`, 15, 'right'] as const)],
      points.map((point) => [
        String(point.state),
        ...group.map(({ instrument }) => {
          const own = point.byInstrument.find((one) => one.instrument === instrument);
          return own === undefined ? '–' : signed(own.leftOverDeg, 4);
        }),
      ]),
    ),
  );
}

const READING_COLUMNS = [
  ['State', 7],
  ['Line', 8],
  ['Instrument', 15],
  ['Certificate', 20],
  ['Heel, °', 20, 'right'],
  ['Freedom', 11, 'right'],
  ['Window, s', 20, 'right'],
  ['Used, s', 8, 'right'],
  ['Rate, Hz', 8, 'right'],
  ['Roll, s', 8, 'right'],
  ['Estimator', 16],
] as const;

function readingRows(state: ShiftState): Row[] {
  const { reading, readingWritten, voided } = state;
  return [
    ...voided.flatMap((one) => rowsOf(one.reading, one.written, true)),
    ...(reading === null || readingWritten === null ? [] : rowsOf(reading, readingWritten, false)),
  ];
}

function rowsOf(reading: Reading, written: Written, struck: boolean): Row[] {
  const roll = reading.rollPeriodS === null ? '–' : fixed(reading.rollPeriodS, 2);
  return reading.instruments.map((one, k) => ({
    struck,
    cells: [
      k === 0 ? String(reading.state) : '',
      k === 0 ? String(written.line) : '',
      one.label,
      one.certificate,
      degreesPair(one.heelDeg, one.standardErrorDeg, one.degreesOfFreedom),
      significant(one.degreesOfFreedom, 3),
      k === 0 ? `${secondsWords(reading.fromS)} to ${secondsWords(reading.toS)}` : '',
      k === 0 ? fixed(reading.countedS, 0) : '',
      significant(one.sampleRateHz, 4),
      k === 0 ? roll : '',
      k === 0 ? reading.estimator : '',
    ],
  }));
}

const HAND_COLUMNS = [
  ['State', 6],
  ['Line', 7],
  ['Instrument', 16],
  ['Kind', 10],
  ['Length, mm', 10, 'right'],
  ['Extremes, mm, starboard +', 26],
  ['Rest, mm', 9, 'right'],
  ['Heel, °', 14, 'right'],
  ['Reader', 14],
  ['Blind', 7],
] as const;

function handRows(state: ShiftState): Row[] {
  return state.handReadings.map(({ reading, written }) => {
    const found = restOf(reading);
    return [
      String(state.state),
      String(written.line),
      reading.instrument,
      reading.kind,
      significant(reading.lengthMm, 6),
      reading.extremesMm.map((one) => significant(one, 6)).join('; '),
      found === null ? 'none' : fixed(found.restMm, 2),
      found === null
        ? 'none'
        : degreesPair(found.heelDeg, found.standardErrorDeg, found.degreesOfFreedom),
      reading.reader,
      reading.blind === undefined ? 'not said' : reading.blind ? 'yes' : 'no',
    ];
  });
}

function restOf(reading: Parameters<typeof deflectionFromHandRead>[0]) {
  try {
    return deflectionFromHandRead(reading);
  } catch (error) {
    if (error instanceof Fault) return null;
    throw error;
  }
}

function flagBlocks({ points, leftOut }: ReportedDay['result']): Block[] {
  const rows = [
    ...points
      .filter(({ flags }) => flags.length > 0)
      .map(({ state, flags }) => [String(state), flags.join('; ')]),
    ...leftOut.map(({ state, instrument, fault }) => [
      String(state),
      `${instrument} gives no heel: ${fault.found}`,
    ]),
  ];
  if (rows.length === 0) return [];
  return [
    heading(2, 'To be said beside these readings'),
    table(
      [
        ['State', 8],
        ['What', 92],
      ],
      rows,
    ),
  ];
}

/** Everything that was rejected, voided, put back or overruled, with reason and by whom. */
export function partNotUsed({ session, result }: ReportedDay): Block[] {
  const voided = session.states.flatMap((state) => [
    ...state.voided.map((one) => [one, 'voided', one.reason, one.voided] as const),
    ...state.putBack.map(
      (one) => [one, 'voided, then put back', one.putBack.reason, one.putBack.written] as const,
    ),
  ]);
  return [
    heading(1, 'What was not used, and why'),
    heading(2, 'Readings voided'),
    tableOr(
      [
        ['State', 7],
        ['Line', 8],
        ['Heel read, °', 16, 'right'],
        ['What', 14],
        ['Reason', 30],
        ['By whom', 28],
      ],
      voided.map(([{ reading, written }, what, reason, by]) => [
        String(reading.state),
        String(written.line),
        degreesPair(
          reading.joined.heelDeg,
          reading.joined.standardErrorDeg,
          reading.joined.degreesOfFreedom,
        ),
        what,
        reason,
        writtenWords(by),
      ]),
      'No reading was voided.',
    ),
    ...(result.withVoidedPutBack?.gmFluidM == null
      ? []
      : [
          note('GM with every voided reading put back stands beside the result on the first page.'),
        ]),
    heading(2, 'Time rejected by the watch'),
    tableOr(
      [
        ['Line', 7],
        ['From, s', 10, 'right'],
        ['To, s', 10, 'right'],
        ['Kind', 12],
        ['Instruments', 16],
        ['Evidence', 31],
        ['Overruled', 20],
      ],
      session.disturbances.map(({ written, disturbance, overruled }) => [
        String(written.line),
        secondsWords(disturbance.fromS),
        secondsWords(disturbance.toS),
        disturbance.kind,
        disturbance.instruments === null ? 'all: the vessel' : disturbance.instruments.join(', '),
        disturbance.evidence,
        overruled === null
          ? 'no'
          : `${overruled.reason} (${overruled.written.author}, ${wallWords(overruled.written.wall)})`,
      ]),
      'No time was rejected.',
    ),
  ];
}
