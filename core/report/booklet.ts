import { TRIP_QUESTIONS, type TripQuestionCode } from '../condition/trip.ts';
import type { ConditionAnswer, StabilityOutput } from '../stability/stability-output.ts';
import { facts, heading, listOr, paragraph, tableOr } from './blocks.ts';
import { bookletCondition, judged, notMet } from './booklet-condition.ts';
import {
  type BookletAsked,
  lightshipBlocks,
  limitBlocks,
  openingBlocks,
  particularBlocks,
  spaceBlocks,
} from './booklet-parts.ts';
import { bookletWheelhouse } from './booklet-wheelhouse.ts';
import { markChanged } from './changed-blocks.ts';
import type { Attachment, Block, ReportDocument } from './document.ts';
import { fixed } from './figure.ts';

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
