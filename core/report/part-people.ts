import { receiptOf, receiptText } from '../record/receipt.ts';
import { facts, heading, note, paragraph, tableOr } from './blocks.ts';
import type { Block } from './document.ts';
import { metres, valueWords, wallWords, writtenWords } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';

/** Who was there, what they said and asked, what was changed afterwards, who signed, and how to check it. */
export function partPeople(day: ReportedDay): Block[] {
  return [
    heading(1, 'People, remarks and signatures'),
    ...peopleBlocks(day),
    ...saidBlocks(day),
    ...issueBlocks(day),
    ...signatureBlocks(day),
  ];
}

function peopleBlocks({ session: { people } }: ReportedDay): Block[] {
  return [
    tableOr(
      [
        ['Name', 26],
        ['Role', 16],
        ['Let in', 28],
        ['Way', 30],
      ],
      people.admitted.map(({ written, role, name, way, withdrawn }) => ({
        struck: withdrawn !== null,
        cells: [name, role, wallWords(written.wall), way],
      })),
      'Nobody was let in by the record.',
    ),
  ];
}

function saidBlocks({ session: { remarks, people } }: ReportedDay): Block[] {
  return [
    heading(2, 'Remarks'),
    tableOr(
      [
        ['Line', 8],
        ['By whom', 30],
        ['About line', 10],
        ['Remark', 52],
      ],
      remarks.map(({ written, text, line }) => [
        String(written.line),
        `${written.author} (${written.role}), ${wallWords(written.wall)}`,
        line === null ? '' : String(line),
        text,
      ]),
      'No remark was made.',
    ),
    heading(2, 'Requests and objections of the witness, and the answers'),
    tableOr(
      [
        ['Line', 8],
        ['What', 12],
        ['About line', 10],
        ['By whom', 26],
        ['In words', 44],
      ],
      people.asks.flatMap(({ written, what, text, line, answers }) => [
        [
          String(written.line),
          what === 'repeat' ? 'repeat asked' : 'objection',
          line === null ? '' : String(line),
          writtenBy(written),
          text,
        ],
        ...(answers.length === 0
          ? [['', 'not answered', String(written.line), '', '']]
          : answers.map((answer) => [
              String(answer.written.line),
              'answer',
              String(written.line),
              writtenBy(answer.written),
              answer.text,
            ])),
      ]),
      'The witness asked nothing and objected to nothing.',
    ),
  ];
}

function writtenBy({ author, role, wall }: { author: string; role: string; wall: string }): string {
  return `${author} (${role}), ${wallWords(wall)}`;
}

function issueBlocks({ issues }: ReportedDay): Block[] {
  if (issues.length < 2) return [];
  return [
    heading(2, 'Issues of the result'),
    tableOr(
      [
        ['Issue', 8],
        ['GM (fluid)', 20, 'right'],
        ['What was changed, and why', 44],
        ['By whom', 28],
      ],
      issues.map(({ issue, change, gmFluidM, refused }) => [
        String(issue),
        gmFluidM === null ? `none: ${refused?.found}` : metres(gmFluidM),
        change === null
          ? 'as first written'
          : [
              `${change.what}: ${change.reason}`,
              ...change.fields.map(
                ({ field, was, is }) => `${field}: ${valueWords(was)}, now ${valueWords(is)}`,
              ),
            ].join('. '),
        change === null ? '' : writtenWords(change.written),
      ]),
      '',
    ),
  ];
}

function signatureBlocks({ session, head, recordSha256, program }: ReportedDay): Block[] {
  const { receipts, seals } = session.people;
  const signed = seals.flatMap((seal) =>
    seal.signatures.map(({ written, publicKey }) => [
      String(seal.written.line),
      written.author,
      written.role,
      wallWords(written.wall),
      publicKey,
    ]),
  );
  return [
    heading(2, 'Signatures'),
    tableOr(
      [
        ['Seal at line', 10],
        ['Name', 18],
        ['Role', 12],
        ['When', 22],
        ['Key', 38],
      ],
      signed,
      'Nobody has signed the record.',
    ),
    heading(2, 'Receipts'),
    tableOr(
      [
        ['Lines', 8],
        ['Held by', 24],
        ['Words', 68],
      ],
      receipts.map(({ written, lines, head: at }) => [
        String(lines),
        `${written.author} (${written.role})`,
        receiptOf({ lines, head: at }).words.join(' '),
      ]),
      'No receipt was taken.',
    ),
    heading(2, 'How to verify'),
    facts([
      ['Record', session.record ?? 'none'],
      ['Lines', String(head.lines)],
      ['Program', program],
    ]),
    paragraph('Receipt of the whole record: the number of its lines and eight words.'),
    { kind: 'exact', text: receiptText(receiptOf(head)) },
    paragraph('SHA-256 of its last line, and of the whole file:'),
    { kind: 'exact', text: `${head.head}\n${recordSha256}` },
    note(
      '“heelwright verify FILE --receipt WORDS” holds the record file to these words; any tool for SHA-256 holds the file to the last digest. The attachment lines.jsonl holds every line of the record but the samples: each left-out block stands there by its number and SHA-256, as the next line names it. A record proves that nothing before a receipt was changed after it; it does not prove that the sensors were real or that the laptop ran this program.',
    ),
  ];
}
