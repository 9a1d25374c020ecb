import { facts, heading, listOr, note, paragraph, table, tableOr } from './blocks.ts';
import type { Block } from './document.ts';
import { significant } from './figure.ts';
import { figureLine, LINE_FIGURE } from './figure-line.ts';
import { sentence } from './part-front.ts';
import { partWorth } from './part-lightship.ts';
import { chanceWords } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';
import { safetyWords } from './safety-words.ts';

const MM_PER_POINT = 25.4 / 72;

/** The plot, what is seen in it and what it cannot show, and what makes the answer uncertain. */
export function partResult(day: ReportedDay): Block[] {
  const { result } = day;
  return [
    heading(1, 'The plot'),
    ...plotBlocks(day),
    heading(2, 'Shapes looked for in the plot'),
    ...shapeBlocks(result),
    heading(2, 'What no plot can show, and the evidence taken instead'),
    table(
      [
        ['What would leave the line straight', 50],
        ['Evidence', 50],
      ],
      result.cannotShow.map(({ what, evidence }) => [sentence(what), evidence]),
    ),
    heading(2, 'What makes the answer uncertain'),
    ...budgetBlocks(result),
    ...partWorth(day),
    ...(result.safety.length === 0
      ? []
      : [
          heading(2, 'What was to be thought over for safety'),
          listOr(result.safety.map(safetyWords), ''),
        ]),
  ];
}

function plotBlocks({ result }: ReportedDay): Block[] {
  const { line } = result;
  if (line === null) return [paragraph('There is no line.')];
  return [
    {
      kind: 'figure',
      svg: figureLine(result),
      widthMm: LINE_FIGURE.width * MM_PER_POINT,
      heightMm: LINE_FIGURE.height * MM_PER_POINT,
      caption:
        'Tangent of heel (mean of the instruments, each less its own intercept) on heeling moment, by least squares with a free intercept; numbers are those of the states.',
      words: `Tangent of heel on heeling moment in ${result.points.length} states, and the residuals from the line; the figures stand in the table of states.`,
    },
    facts([
      [
        'Slope, tangent per t·m',
        `${significant(line.slopePerTM.value, 7)} ± ${significant(line.slopePerTM.halfWidth95, 2)}`,
      ],
      ['Tangent at no moment', significant(line.interceptTangent, 5)],
      [
        'States scatter about the line, degrees',
        line.stateDeviationDeg === null
          ? 'not told by so few'
          : significant(line.stateDeviationDeg, 2),
      ],
      [
        'One reading of one instrument scatters, degrees',
        line.readingDeviationDeg === null
          ? 'not told by so few'
          : significant(line.readingDeviationDeg, 2),
      ],
      ...(result.repeats === null ? [] : [['Repeated states', result.repeats.words] as const]),
    ]),
  ];
}

function shapeBlocks({ diagnosis }: ReportedDay['result']): Block[] {
  if (diagnosis === null) return [paragraph('None could be looked for.')];
  return [
    paragraph(sentence(diagnosis.verdict)),
    tableOr(
      [
        ['Shape', 16],
        ['Seen', 7],
        ['In words', 55],
        ['By chance', 10, 'right'],
        ['States', 12],
      ],
      diagnosis.shapes.map(({ shape, seen, words, probability, states }) => [
        shape.replaceAll('-', ' '),
        seen ? 'yes' : 'no',
        words,
        probability === null ? '–' : chanceWords(probability),
        states.join(', '),
      ]),
      'No shape could be looked for.',
    ),
    ...(diagnosis.byRoll.length === 0
      ? []
      : [
          listOr(
            diagnosis.byRoll.map(({ words }) => words),
            '',
          ),
        ]),
    ...causeBlocks(diagnosis.causes),
    note(
      'Limits of these tests are settings of this program: the texts of the trade give no number, they ask for a straight line and that a bad movement is repeated or explained (IS Code B 8.4.1.2).',
    ),
  ];
}

function causeBlocks(causes: NonNullable<ReportedDay['result']['diagnosis']>['causes']): Block[] {
  if (causes.length === 0) return [paragraph('No cause is named: nothing speaks for one.')];
  return [
    heading(2, 'What may be wrong, the likeliest first'),
    table(
      [
        ['Cause', 34],
        ['Evidence', 40],
        ['What to do', 26],
      ],
      causes.map(({ words, todo, evidence }) => [
        sentence(words),
        evidence
          .map(({ speaksFor, words: said }) => `${speaksFor ? 'for' : 'against'}: ${said}`)
          .join('; '),
        sentence(todo),
      ]),
    ),
  ];
}

function budgetBlocks(result: ReportedDay['result']): Block[] {
  const head =
    result.headline === 'metacentre-movement' ? result.metacentreMovement : result.classical;
  return [
    tableOr(
      [
        ['Cause, one standard uncertainty of it', 52],
        ['in GM, mm', 16, 'right'],
        ['in KG, mm', 16, 'right'],
        ['degrees of freedom', 16, 'right'],
      ],
      (head?.budget ?? []).map(({ cause, gmMm, kgMm, degreesOfFreedom }) => [
        sentence(cause).slice(0, -1),
        significant(gmMm, 3),
        kgMm === null ? '–' : significant(kgMm, 3),
        degreesOfFreedom === null ? '–' : significant(degreesOfFreedom, 3),
      ]),
      'There is no answer to be uncertain.',
    ),
    note(
      'Causes are independent and add by squares (JCGM 100:2008, 5.1). A cause without degrees of freedom is known from elsewhere: certificates, tapes, what was stated.',
    ),
  ];
}
