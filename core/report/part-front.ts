import { facts, heading, note, paragraph, table } from './blocks.ts';
import type { Block } from './document.ts';
import { significant } from './figure.ts';
import { dayWords, metres, stated, wallWords } from './report-words.ts';
import type { ReportedDay } from './reported-day.ts';

/** What it is, in one look: the vessel, the day, the answer and how far it may be trusted. */
export function partFront(day: ReportedDay): Block[] {
  const { session, result } = day;
  const { test, testOpened } = session;
  const vessel = test?.vessel ?? 'no vessel';
  return [
    { kind: 'title', text: `Inclining test of ${vessel}` },
    ...(session.simulation === null
      ? []
      : [
          {
            kind: 'notice',
            text: 'Rehearsal. The vessel, her readings and her people are simulated; no figure of this document is of a real vessel.',
          } as const,
        ]),
    facts([
      ['Vessel', vessel],
      ['Place', test?.at ?? 'no test was opened'],
      ['Date', testOpened === null ? 'no test was opened' : dayWords(testOpened.wall)],
      ['Test', test?.test ?? 'none'],
      ['Architect', namesOf(day, 'architect')],
      ['Witness', namesOf(day, 'witness')],
      ['Opened by', testOpened === null ? 'nobody' : `${testOpened.author} (${testOpened.role})`],
      ['Begun', testOpened === null ? 'no' : wallWords(testOpened.wall)],
      [
        'Closed',
        session.closed === null
          ? 'not closed'
          : `${wallWords(session.closed.written.wall)}: ${session.closed.reason}`,
      ],
      ['Issue of the result', String(result.issue)],
    ]),
    heading(1, 'Result'),
    ...answerBlocks(day),
    note(
      '± is half the width of the 95 % interval, by Student’s t where the data are few. Reference planes: x forward from the after perpendicular, y to starboard from the centreline, z up from the baseline. Heel is positive starboard down.',
    ),
    paragraph(
      'This is no approval: local rules, the responsible licensed practitioner and the authority decide.',
    ),
  ];
}

function namesOf({ session }: ReportedDay, role: string): string {
  const names = session.people.admitted.filter((one) => one.role === role).map(({ name }) => name);
  return names.length === 0 ? 'none was let in' : [...new Set(names)].join(', ');
}

function answerBlocks({ session, result }: ReportedDay): Block[] {
  if (result.gmFluidM === null) {
    const why = result.refused === null ? 'too few readings' : result.refused.found;
    return [{ kind: 'notice', text: `There is no GM: ${why}.` }];
  }
  const official = (way: typeof result.headline) => (result.headline === way ? 'official' : '');
  const rows = [
    ['Classical line', result.classical, official('classical')] as const,
    [
      'Metacentre’s movement taken out',
      result.metacentreMovement,
      official('metacentre-movement'),
    ] as const,
  ].map(([way, answer, is]) =>
    answer === null
      ? [way, 'c2 is not known', '–', '']
      : [
          way,
          metres(answer.gmFluidM),
          answer.kgFluidM === null ? 'KM is not known' : metres(answer.kgFluidM),
          is,
        ],
  );
  const { displacementT, displacementUncertaintyT, kmM, kmUncertaintyM, metacentreMovementM } =
    session.test!.particulars;
  return [
    table(
      [
        ['By which way', 34],
        ['GM (fluid), m', 24, 'right'],
        ['KG (of fluid GM), m', 24, 'right'],
        ['', 14],
      ],
      [
        ...rows.map((cells) => cells.map((cell) => cell.replace(/ m$/, ''))),
        ['Exact equation with the hull', 'no hull in the record', '–', ''],
      ],
    ),
    facts([
      [
        'Verdict on the plot',
        result.diagnosis === null ? 'none' : sentence(result.diagnosis.verdict),
      ],
      ['Displacement as inclined', stated(displacementT, displacementUncertaintyT, 't')],
      ['KM upright, as inclined', kmM === null ? 'not known' : stated(kmM, kmUncertaintyM, 'm')],
      [
        'c2 of the metacentre’s movement',
        metacentreMovementM === null ? 'not known' : stated(metacentreMovementM, null, 'm'),
      ],
      ['States read', String(result.statesRead)],
      ...voidedRows(result),
      ...truthRows(result),
    ]),
    note(
      'GM (fluid) is as she lay, the free surfaces in it; the KG beside it is KM less that GM, a virtual height with the free surfaces still in it.',
    ),
  ];
}

function voidedRows({
  withVoidedPutBack,
  withoutOverruled,
}: ReportedDay['result']): [string, string][] {
  const gmOf = (put: NonNullable<typeof withVoidedPutBack>) =>
    put.gmFluidM === null ? `none: ${put.refused?.found}` : metres(put.gmFluidM);
  return [
    withVoidedPutBack === null
      ? ['Readings voided', 'none']
      : [
          `GM (fluid) with all ${withVoidedPutBack.readings} voided readings put back`,
          gmOf(withVoidedPutBack),
        ],
    ...(withoutOverruled === null
      ? []
      : [
          [
            `GM (fluid) without the ${withoutOverruled.readings} readings that stand by overruling`,
            gmOf(withoutOverruled),
          ] as [string, string],
        ]),
  ];
}

function truthRows({ truth }: ReportedDay['result']): [string, string][] {
  if (truth === null) return [];
  const { gmFluidM, differenceMm, insideInterval95 } = truth;
  const inside = insideInterval95 === true ? 'inside' : 'outside';
  return [
    [
      'The simulator’s own GM (fluid)',
      `${significant(gmFluidM, 6)} m` +
        (differenceMm === null ? '' : `: the result is ${inside} its 95 % interval`),
    ],
  ];
}

export function sentence(words: string): string {
  const end = /[.!?]$/.test(words) ? '' : '.';
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}${end}`;
}
