import { receiptOf, receiptText } from '../record/receipt.ts';
import { facts, heading, note, paragraph, tableOr } from './blocks.ts';
import type { ReportDocument } from './document.ts';
import { fixed, significant } from './figure.ts';
import { reportMarks } from './report-marks.ts';
import { dayWords, degreesPair, metres, wallWords } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';

/**
 * What the witness signs in ink beside the gangway: what was read, what came of it so far, and the
 * words that bind the sheet to the record. Each state has a place for both initials (IS Code annex
 * 1, 4.3.7, from memory).
 */
export function witnessSheet(day: ReportedDay): ReportDocument {
  const { session, result, head, lastWall, recordSha256 } = day;
  const { test, testOpened } = session;
  const open = session.people.asks.filter(({ answers }) => answers.length === 0).length;
  return {
    title: 'Witness’s sheet',
    subject: [test?.vessel, test?.at, testOpened === null ? null : dayWords(testOpened.wall)]
      .filter((part) => part != null && part !== '')
      .join(', '),
    language: 'en',
    wall: lastWall,
    marks: reportMarks(day),
    foot: `Record ${session.record ?? 'none'}, ${head.lines} lines, ends ${head.head.slice(0, 16)}`,
    blocks: [
      { kind: 'title', text: `Inclining test of ${test?.vessel ?? 'no vessel'}: witness’s sheet` },
      facts([
        ['Test', test?.test ?? 'none'],
        ['The record stands at', `${head.lines} lines, ${wallWords(lastWall)}`],
        ['GM (fluid) so far', result.gmFluidM === null ? 'none yet' : metres(result.gmFluidM)],
        ['Plot', result.diagnosis?.verdict ?? 'none yet'],
        ['Asked by the witness and not answered', String(open)],
        [
          'Readings voided',
          String(session.states.reduce((sum, one) => sum + one.voided.length, 0)),
        ],
      ]),
      paragraph('Receipt of the record as it stands: the number of its lines and eight words.'),
      { kind: 'exact', text: `${receiptText(receiptOf(head))}\n${head.head}\n${recordSha256}` },
      heading(2, 'Readings accepted'),
      tableOr(
        [
          ['State', 8],
          ['Weights moved', 20],
          ['Moment, t·m', 14, 'right'],
          ['Heel, °', 18, 'right'],
          ['Read', 14, 'right'],
          ['Architect', 13],
          ['Witness', 13],
        ],
        session.states.flatMap(({ state, moves, heelingMomentTM, reading, readingWritten }) => {
          if (reading === null || readingWritten === null) return [];
          const { heelDeg, standardErrorDeg, degreesOfFreedom } = reading.joined;
          return [
            [
              String(state),
              moves.map(({ weight }) => weight).join(', '),
              fixed(heelingMomentTM, 4),
              degreesPair(heelDeg, standardErrorDeg, degreesOfFreedom),
              readingWritten.wall.slice(11, 19),
              '',
              '',
            ],
          ];
        }),
        'None yet.',
      ),
      note(
        'Heel: of all instruments together, starboard down positive, ± 95 %. Times are UTC. Initials beside each state, by both, before anybody leaves.',
      ),
      heading(2, 'Weights as certified'),
      tableOr(
        [
          ['Weight', 20],
          ['Mass, t', 25, 'right'],
          ['Certificate', 30],
          ['Seen by the witness', 25],
        ],
        (test?.weights ?? []).map(({ weight, massT, certificate }) => [
          weight,
          significant(massT, 7),
          certificate,
          '',
        ]),
        'No weight is stated.',
      ),
      paragraph(
        'Signed for having been present and seen what stands above. The signature binds to the words: a record that was changed before its last line gives other words.',
      ),
      {
        kind: 'ink',
        lines: [
          'Witness, name and office',
          'Signature',
          'Architect',
          'Signature',
          'Place, date and time',
        ],
      },
    ],
    attachments: [],
  };
}
