import type { ReductionOutput } from '../reduction/reduction-output.ts';
import { entriesOf } from '../session/survey-state.ts';
import { facts, heading, note, paragraph, tableOr } from './blocks.ts';
import type { Block } from './document.ts';
import { fixed, measured, signed, significant } from './figure.ts';
import { placeWords } from './part-day.ts';
import { NOT_STATED } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';

/** What was aboard and is no part of her, what was agreed, the lightship, and the pictures. */
export function partLightship(day: ReportedDay): Block[] {
  const lightship = day.reduction.reduction?.lightship ?? null;
  return [
    heading(1, 'Survey and lightship'),
    ...(lightship === null
      ? [
          paragraph(
            'The record gives no lightship: it needs the hull, how she floats, and the survey.',
          ),
        ]
      : lightshipBlocks(lightship)),
    heading(2, 'What belongs to the lightship, as agreed beforehand'),
    ...matterBlocks(day),
    heading(2, 'Items'),
    ...itemBlocks(day),
    ...photographBlocks(day),
  ];
}

type Lightship = NonNullable<ReductionOutput['lightship']>;
const figureWords = (one: Lightship['mass']) => measured(one.value, one.halfWidth95, one.unit);

function lightshipBlocks(lightship: Lightship): Block[] {
  const { asInclined, budget } = lightship;
  const shown = budget.filter((row) => isNamed(row, budget));
  return [
    ...(lightship.provisional
      ? [{ kind: 'notice', text: 'Provisional: items are still to be fitted.' } as const]
      : []),
    facts([
      ['Lightship', figureWords(lightship.mass)],
      ['LCG, forward of the after perpendicular', figureWords(lightship.lcg)],
      ['TCG, to starboard', figureWords(lightship.tcg)],
      ['VCG (KG), over the baseline', figureWords(lightship.vcg)],
      [
        'As inclined: mass; LCG, TCG, VCG',
        `${significant(asInclined.mass, 6)} t; ${[asInclined.lcg, asInclined.tcg, asInclined.vcg].map((one) => significant(one, 5)).join(', ')} m`,
      ],
      [
        'Taken off, added, to be fitted',
        [lightship.deducted, lightship.added, lightship.toBeFitted]
          .map((one) => `${significant(one, 5)} t`)
          .join(', '),
      ],
    ]),
    tableOr(
      [
        ['Cause, one standard uncertainty of it', 44],
        ['Mass, kg', 14, 'right'],
        ['LCG, mm', 14, 'right'],
        ['TCG, mm', 14, 'right'],
        ['VCG, mm', 14, 'right'],
      ],
      shown.map(({ cause, mass, lcg, tcg, vcg }) => [
        cause,
        ...[mass, lcg, tcg, vcg].map((one) => significant(1000 * one, 3)),
      ]),
      'Nothing makes it uncertain by what was entered.',
    ),
    ...(shown.length === budget.length
      ? []
      : [
          note(
            `${budget.length - shown.length} further causes are each under a fiftieth of the largest in every column; “heelwright reduce RECORD --json” prints all.`,
          ),
        ]),
  ];
}

/** A fiftieth adds a five-thousandth by squares: it tells a reader nothing. */
const NAMED_FROM = 0.02;

function isNamed(row: Lightship['budget'][number], all: Lightship['budget']): boolean {
  return (['mass', 'lcg', 'tcg', 'vcg'] as const).some((key) => {
    const largest = Math.max(...all.map((one) => Math.abs(one[key])));
    return largest > 0 && Math.abs(row[key]) >= NAMED_FROM * largest;
  });
}

const AGREED = {
  in: 'belongs to her',
  out: 'does not',
  'not-there': 'not there',
  open: 'NOT SETTLED',
} as const;

function matterBlocks({ session }: ReportedDay): Block[] {
  const agreed = entriesOf(session.survey, 'agreed').map(({ key, value }) => `${key}, ${value.as}`);
  return [
    tableOr(
      [
        ['Matter', 40],
        ['Agreed', 25],
        ['Note', 35],
      ],
      entriesOf(session.survey, 'matter').map(({ key, value }) => [
        key.replaceAll('-', ' '),
        AGREED[value.agreed],
        value.note ?? '',
      ]),
      'Nothing was entered as agreed.',
    ),
    facts([['Agreed by', agreed.length === 0 ? 'nobody' : agreed.join('; ')]]),
  ];
}

function itemBlocks({ session }: ReportedDay): Block[] {
  return [
    tableOr(
      [
        ['Item', 25],
        ['Kind', 12],
        ['Mass, t', 11, 'right'],
        ['± , t', 9, 'right'],
        ['x, y, z, m', 20, 'right'],
        ['To', 12, 'right'],
        ['Note', 16],
      ],
      entriesOf(session.survey, 'item').map(({ key, value }) => [
        key,
        value.kind.replaceAll('-', ' '),
        significant(value.massT, 6),
        significant(value.massUncertaintyT, 3),
        placeWords(value.at),
        value.to === undefined ? '' : placeWords(value.to),
        [
          value.massScale === undefined
            ? ''
            : `${value.massScale.name} ${significant(100 * value.massScale.uncertaintyShare, 3)} %`,
          value.note ?? '',
        ]
          .filter((part) => part !== '')
          .join('; '),
      ]),
      'No item was entered.',
    ),
    note(
      '± of an item: one standard uncertainty, as entered. Places: forward of the after perpendicular, to starboard, over the baseline.',
    ),
  ];
}

function photographBlocks({ photographs, session }: ReportedDay): Block[] {
  if (photographs.length === 0) return [];
  const ofLine = new Map(session.survey.photographs.map((one) => [one.written.line, one]));
  return [
    heading(2, 'Photographs'),
    {
      kind: 'photographs',
      pictures: photographs.map(({ line, caption, jpeg }) => {
        const of = ofLine.get(line)?.of ?? null;
        const what = [
          of === null ? '' : `${of.sheet} ${of.key}`,
          caption === '' ? NOT_STATED : caption,
        ];
        return { jpeg, caption: `${what.filter((part) => part !== '').join(': ')} (line ${line})` };
      }),
    },
  ];
}

/** What a text of the trade asks and the day did not meet, and what is to be thought over, each with its clause. */
export function partDeviations({ reduction, result }: ReportedDay): Block[] {
  const notMet = result.agreement.pendulums.asks.filter(({ met }) => !met);
  const advice = reduction.reduction?.advice ?? [];
  return [
    heading(1, 'Deviations'),
    tableOr(
      [
        ['What', 36],
        ['Where', 14],
        ['Found', 10, 'right'],
        ['Limit', 10, 'right'],
        ['Clause', 30],
      ],
      [
        ...notMet.map(({ asks, found, source }) => [`Not met: ${asks}`, found, '–', '–', source]),
        ...advice.map(({ means, where, found, limit, unit, clause }) => [
          means,
          where,
          found === null ? '–' : `${significant(found, 4)} ${unit}`.trim(),
          limit === null ? '–' : `${significant(limit, 4)} ${unit}`.trim(),
          clause,
        ]),
      ],
      'None is found among what this program looks at.',
    ),
    note(
      reduction.reduction === null
        ? `The day is not reduced, so that only the instruments were looked at (${reduction.refused?.found ?? 'no reason given'}).`
        : 'A clause said to be from memory was not seen in its text. Whether a deviation is accepted is for the authority.',
    ),
    ...notStatedBlocks(reduction.reduction),
  ];
}

function notStatedBlocks(reduction: ReductionOutput | null): Block[] {
  if (reduction === null || reduction.notStated.length === 0) return [];
  return [
    paragraph(
      `Counted as without uncertainty, none being stated: ${reduction.notStated.join(', ')}.`,
    ),
  ];
}

/** What to measure again, and what it would buy. */
export function partWorth({ reduction }: ReportedDay): Block[] {
  const worth = reduction.reduction?.worth;
  if (worth === undefined) return [];
  const WHAT = {
    'next-shift': 'one more shift',
    'minute-each': 'a minute longer at each state',
    'freeboard-again': 'the freeboards once more',
    'freeboards-all-again': 'all freeboards again',
  } as const;
  return [
    heading(2, 'What to measure again, and what it would buy'),
    tableOr(
      [
        ['What', 40],
        ['Minutes', 20, 'right'],
        ['± 95 % after, mm', 20, 'right'],
        ['Bought, mm', 20, 'right'],
      ],
      worth.more.map(({ what, minutes, halfWidth95After, bought }) => [
        WHAT[what],
        fixed(minutes, 0),
        fixed(1000 * halfWidth95After, 1),
        signed(1000 * bought, 1),
      ]),
      'Nothing more would make it better.',
    ),
    facts([
      ['Now ± 95 %', `${fixed(1000 * worth.halfWidth95, 1)} mm`],
      ['Largest cause', worth.largestCause],
      ['Share of the angles', `${fixed(100 * worth.anglesShare, 0)} %`],
    ]),
  ];
}
