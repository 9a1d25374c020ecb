import { DAY_CHECKS, STATEMENTS } from '../record/entry-line.ts';
import { entriesOf } from '../session/survey-state.ts';
import { facts, heading, listOr, note, table, tableOr } from './blocks.ts';
import { CLOSING_WORDS } from './closing-words.ts';
import type { Block } from './document.ts';
import { signed, significant } from './figure.ts';
import { NOT_STATED, wallWords } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';

const STATEMENT_NAMES: Readonly<Record<(typeof STATEMENTS)[number], string>> = {
  owner: 'Owner',
  authority: 'Authority',
  responsible: 'Responsible person',
  place: 'Berth',
  mooring: 'Mooring',
  wind: 'Wind',
  current: 'Current and tide',
  depth: 'Depth of water round her',
  weather: 'Weather',
  'weight-handling': 'How the weights were moved',
  'variances-accepted': 'Variances from the procedure, as accepted',
  'authority-comments': 'Comments of the authority on the procedure',
};

const CHECK_NAMES: Readonly<Record<(typeof DAY_CHECKS)[number], string>> = {
  'lines-slack': 'All lines slack',
  'clear-of-fenders': 'Clear of fenders',
  depth: 'Depth enough all round at the greatest heel',
  'gangway-off': 'Gangway off',
  'decks-dry': 'Decks dry',
  'loose-gear-secured': 'Loose gear secured',
  'cross-connections-shut': 'Cross-connections shut',
  'people-told-off': 'People at their marks',
  'free-swing': 'Swings free',
};

/** What was notified, the conditions of the day, and what was looked at before and at the end. */
export function partConditions(day: ReportedDay): Block[] {
  const { session } = day;
  const { survey } = session;
  const statements = new Map(entriesOf(survey, 'statement').map((one) => [one.key, one]));
  const looked = (key: string, occasion: 'before' | 'closing') => {
    const found = entriesOf(survey, 'check', occasion).find((one) => one.key === key);
    if (found === undefined) return 'not entered';
    const { holds, note: said } = found.value;
    return [holds ? 'yes' : 'NO', said].filter((part) => part !== '').join(': ');
  };
  return [
    heading(1, 'Notification and conditions'),
    facts(
      STATEMENTS.map((key) => [
        STATEMENT_NAMES[key],
        statements.get(key)?.value.text ?? NOT_STATED,
      ]),
    ),
    heading(2, 'Looked at before the first shift and at the end'),
    table(
      [
        ['What', 36],
        ['Before', 32],
        ['At the end', 32],
      ],
      DAY_CHECKS.map((key) => [CHECK_NAMES[key], looked(key, 'before'), looked(key, 'closing')]),
    ),
    ...closingBlocks(day),
    ...weightAgainBlocks(session),
    ...lateBlocks(session),
  ];
}

function closingBlocks({ closing, missing }: ReportedDay): Block[] {
  const lies =
    closing === null || closing.deeperM === null
      ? []
      : [
          `She lies ${signed(1000 * closing.deeperM, 1)} mm deeper` +
            (closing.gainedT === null ? '' : ` (${signed(closing.gainedT, 3)} t)`),
        ];
  return [
    heading(2, 'The end of the day against its beginning'),
    listOr(
      [...lies, ...(closing?.causes ?? []).map((cause) => CLOSING_WORDS[cause])],
      'Nothing was taken again at the end.',
    ),
    heading(2, 'Not entered, and why it would matter'),
    listOr(
      missing.map(({ what, why }) => `${what}: ${why}`),
      'Nothing that is asked is missing.',
    ),
  ];
}

function weightAgainBlocks({ survey, test }: ReportedDay['session']): Block[] {
  const again = [
    ...entriesOf(survey, 'weight').map((one) => ['before', one] as const),
    ...entriesOf(survey, 'weight', 'closing').map((one) => ['at the end', one] as const),
  ];
  const distances = entriesOf(survey, 'distance');
  if (again.length + distances.length === 0) return [];
  return [
    heading(2, 'Masses and distances taken a second time'),
    tableOr(
      [
        ['Weight', 20],
        ['When', 16],
        ['Mass, t', 20, 'right'],
        ['As stated, t', 20, 'right'],
        ['By', 24],
      ],
      again.map(([when, { key, value }]) => {
        const stated = test?.weights.find(({ weight }) => weight === key);
        return [
          key,
          when,
          significant(value.massT, 7),
          stated === undefined ? NOT_STATED : significant(stated.massT, 7),
          value.by,
        ];
      }),
      'No mass was taken a second time.',
    ),
    tableOr(
      [
        ['State', 15],
        ['Weight', 25],
        ['Distance, m', 30, 'right'],
        ['By', 30],
      ],
      distances.map(({ value }) => [
        String(value.state),
        value.weight,
        significant(value.distanceM, 7),
        value.by,
      ]),
      'No distance was taken a second time.',
    ),
  ];
}

/** Rows first written on paper, and rows that replaced others. */
function lateBlocks({ survey }: ReportedDay['session']): Block[] {
  const rows = survey.entries.filter(({ fromPaper, earlier }) => fromPaper || earlier.length > 0);
  if (rows.length === 0) return [];
  return [
    heading(2, 'Rows of the survey that were written anew or taken from paper'),
    table(
      [
        ['Sheet', 14],
        ['Row', 26],
        ['Line', 10],
        ['In place of lines', 18],
        ['From paper', 10],
        ['By whom', 22],
      ],
      rows.map(({ sheet, key, written, earlier, fromPaper }) => [
        sheet,
        key,
        String(written.line),
        earlier.join(', '),
        fromPaper ? 'yes' : '',
        `${written.author}, ${wallWords(written.wall)}`,
      ]),
    ),
    note('Every earlier row stands in the record under its own line.'),
  ];
}
