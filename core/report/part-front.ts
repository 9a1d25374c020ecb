import { facts, heading, note, paragraph, table } from './blocks.ts';
import type { Block } from './document.ts';
import { measured, significant } from './figure.ts';
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

function answerBlocks(day: ReportedDay): Block[] {
  const { result } = day;
  if (result.gmFluidM === null) {
    const why = result.refused === null ? 'too few readings' : result.refused.found;
    return [{ kind: 'notice', text: `There is no GM: ${why}.` }];
  }
  return [
    table(
      [
        ['By which way', 32],
        ['GM (fluid), m', 18, 'right'],
        ['KG of fluid GM, m', 18, 'right'],
        ['GM (solid), m', 18, 'right'],
        ['KG (solid), m', 18, 'right'],
        ['Official', 12],
      ],
      answerRows(day),
    ),
    facts([
      [
        'Verdict on the plot',
        result.diagnosis === null ? 'none' : sentence(result.diagnosis.verdict),
      ],
      ...basisRows(day),
      ['States read', String(result.statesRead)],
      ...voidedRows(result),
      ...truthRows(result),
    ]),
    note(
      'GM (fluid) is as she lay, the free surfaces in it; the KG of it is KM less that GM, a virtual height with the free surfaces still in it. GM and KG (solid): the liquids held still, by the exact equation with the hull and the tanks. Which answer is official is the authority’s to choose.',
    ),
  ];
}

/** The three answers side by side: by the hull where one was entered, else by what was stated. */
function answerRows({ result, reduction: { reduction, byHull } }: ReportedDay): string[][] {
  const pair = (
    one: { readonly value: number; readonly halfWidth95: number } | null | undefined,
  ) => (one == null ? '–' : measured(one.value, one.halfWidth95, ''));
  const by = byHull ? reduction : null;
  const headline = by === null ? result.headline : by.headline;
  const official = (way: string) => (headline === way ? 'official' : '');
  const exact = by?.exact ?? null;
  const classical = {
    gm: by === null ? result.classical?.gmFluidM : by.classical.gmFluid,
    kg: by === null ? result.classical?.kgFluidM : by.classical.kgFluid,
  };
  const moving = {
    gm: by === null ? result.metacentreMovement?.gmFluidM : by.metacentreMovement?.gmFluid,
    kg: by === null ? result.metacentreMovement?.kgFluidM : by.metacentreMovement?.kgFluid,
  };
  return [
    ['Classical line', pair(classical.gm), pair(classical.kg), '–', '–', official('classical')],
    [
      'Metacentre’s movement taken out',
      moving.gm == null ? 'c2 not known' : pair(moving.gm),
      pair(moving.kg),
      '–',
      '–',
      official('metacentre-movement'),
    ],
    [
      'Exact equation with hull and tanks',
      exact === null ? 'no hull' : pair(exact.gmFluid),
      '–',
      pair(exact?.gmSolid),
      pair(exact?.kgSolid),
      official('exact'),
    ],
  ];
}

/** Displacement, KM and c2 that the answers rest on. */
function basisRows({ session, reduction: { reduction, byHull } }: ReportedDay): [string, string][] {
  const particulars = session.test?.particulars;
  if (particulars === undefined) return [];
  const { displacementT, displacementUncertaintyT, kmM, kmUncertaintyM, metacentreMovementM } =
    particulars;
  const float = byHull ? (reduction?.float ?? null) : null;
  const rows: [string, string][] =
    float === null
      ? [
          [
            'Displacement as inclined, stated',
            stated(displacementT, displacementUncertaintyT, 't'),
          ],
          ['KM upright, stated', kmM === null ? 'not known' : stated(kmM, kmUncertaintyM, 'm')],
          [
            'c2, stated',
            metacentreMovementM === null ? 'not known' : stated(metacentreMovementM, null, 'm'),
          ],
        ]
      : [
          [
            'Displacement as inclined, by the hull',
            measured(float.displacement.value, float.displacement.halfWidth95, 't'),
          ],
          ['KM upright, by the hull', measured(float.km.value, float.km.halfWidth95, 'm')],
          [
            'c2, by the hull',
            float.metacentreMovement === null
              ? 'not known'
              : `${significant(float.metacentreMovement, 4)} m`,
          ],
        ];
  const lightship = byHull ? (reduction?.lightship ?? null) : null;
  if (lightship === null) return rows;
  return [
    ...rows,
    [
      'Lightship: mass, LCG, VCG',
      [lightship.mass, lightship.lcg, lightship.vcg]
        .map((one) => measured(one.value, one.halfWidth95, one.unit))
        .join('; '),
    ],
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
