import type { SessionState } from '../session/session.ts';
import { type CsvCell, csvTable } from './csv.ts';

/** Every reading of the day by each instrument, voided ones too; units stand in the header. */
export function readingsTable(session: SessionState): string {
  const rows = session.states.flatMap((state): CsvCell[][] => {
    const readings = [
      ...state.voided.map((one) => ({ ...one, voidedFor: one.reason as string | null })),
      ...(state.reading === null || state.readingWritten === null
        ? []
        : [{ reading: state.reading, written: state.readingWritten, voidedFor: null }]),
    ];
    return readings.flatMap(({ reading, written, voidedFor }) =>
      reading.instruments.map((one) => [
        state.state,
        written.line,
        written.wall,
        written.author,
        one.instrument,
        one.label,
        one.certificate,
        state.heelingMomentTM,
        one.heelDeg,
        one.standardErrorDeg,
        one.degreesOfFreedom,
        reading.countedS,
        reading.rollPeriodS,
        reading.estimator,
        voidedFor,
      ]),
    );
  });
  return csvTable(
    [
      ...['state', 'line', 'wall', 'author', 'instrument', 'label', 'certificate'],
      ...['heelingMomentTM', 'heelDeg', 'standardErrorDeg', 'degreesOfFreedom', 'countedS'],
      ...['rollPeriodS', 'estimator', 'voidedFor'],
    ],
    rows,
  );
}

/** What was not used and why, and what people wrote: remarks, requests, objections, answers. */
export function wordsTable(session: SessionState): string {
  const rows: CsvCell[][] = [
    ...session.disturbances.map(({ written, disturbance, overruled }): CsvCell[] => [
      written.line,
      written.wall,
      written.author,
      overruled === null ? 'not used' : 'not used, overruled',
      null,
      disturbance.fromS,
      disturbance.toS,
      `${disturbance.kind}: ${disturbance.evidence}`,
    ]),
    ...session.timeMarks.map(({ written, mark, words }) =>
      said(written, 'time mark', null, words === '' ? `${mark}` : `${mark}: ${words}`),
    ),
    ...session.remarks.map(({ written, text, line }) => said(written, 'remark', line, text)),
    ...session.people.asks.flatMap(({ written, what, text, line, answers }) => [
      said(written, what, line, text),
      ...answers.map((answer) => said(answer.written, 'answer', written.line, answer.text)),
    ]),
  ];
  return csvTable(
    ['line', 'wall', 'author', 'what', 'aboutLine', 'fromS', 'toS', 'words'],
    rows.toSorted((a, b) => Number(a[0]) - Number(b[0])),
  );
}

function said(
  { line, wall, author }: { line: number; wall: string; author: string },
  what: string,
  aboutLine: number | null,
  text: string,
): CsvCell[] {
  return [line, wall, author, what, aboutLine, null, null, text];
}
