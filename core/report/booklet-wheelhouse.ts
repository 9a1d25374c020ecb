import type { LoadingInput } from '../stability/loading-input.ts';
import type { ConditionAnswer, StabilityOutput } from '../stability/stability-output.ts';
import { heading, listOr, note, tableOr } from './blocks.ts';
import { judged, notMet } from './booklet-condition.ts';
import type { Block } from './document.ts';
import { fixed } from './figure.ts';

/** What a skipper needs: instructions in plain words, and one page for the wheelhouse. */
export function bookletWheelhouse(input: LoadingInput, answer: StabilityOutput): Block[] {
  const shut = input.openings.filter(({ kept }) => kept === 'shut').map(({ opening }) => opening);
  const worst = input.openings
    .filter(({ kept }) => kept === 'open-at-worst')
    .map(({ opening }) => opening);
  const keep = [
    shut.length === 0
      ? 'At sea keep shut whatever can be shut.'
      : `At sea keep shut: ${shut.join(', ')}.`,
    ...(worst.length === 0
      ? []
      : [`Open only while it is needed, and shut before weather or a turn: ${worst.join(', ')}.`]),
    'Keep the cross-connections between tanks shut, and no more tanks slack than must be.',
  ];
  return [
    { kind: 'page' },
    heading(1, 'To the skipper'),
    listOr(
      [
        ...keep,
        'Stow heavy things low and lash them. What is lifted hangs, for her, at the top of the derrick.',
        'Water on deck, ice and wet gear are weight high up: clear the freeing ports, knock ice off, land what is not needed.',
        'If she rolls slower than she did with the same load, she has grown tender: take weight down or ashore and ask.',
        'A list that comes by itself has a reason. Find it before it is trimmed away.',
        'Meeting these rules is no promise. Weather, seas from astern and a snagged gear can overturn a vessel that meets them all.',
      ],
      '',
    ),
    { kind: 'page' },
    { kind: 'title', text: `${answer.vessel}: for the wheelhouse` },
    tableOr(
      [
        ['Loaded as in', 34],
        ['Mean draught, m', 15, 'right'],
        ['May she?', 12],
        ['What is tightest, or not met', 39],
      ],
      answer.conditions.map((one) => {
        const failing = notMet(one);
        return [
          one.condition,
          fixed(one.draughtMeanM, 2),
          judged(one) === 0 ? 'not judged' : failing.length === 0 ? 'YES' : 'NO',
          failing[0] ?? tightest(one),
        ];
      }),
      'No condition.',
    ),
    listOr(keep, ''),
    note(
      'YES: every clause that was judged counts as met, by the lightship and openings of the booklet. It is no approval and no promise of safety.',
    ),
  ];
}

/** The clause with the smallest share of its limit in hand. */
function tightest({ ruleSets }: ConditionAnswer): string {
  const figures = ruleSets.flatMap(({ clauses }) =>
    clauses.flatMap(({ printed, countsAsMet, figures: of, words }) =>
      countsAsMet === null
        ? []
        : of.map(({ margin, limit }) => ({
            words: `${printed}: ${words}`,
            share: limit === 0 ? margin : margin / Math.abs(limit),
          })),
    ),
  );
  const [first] = figures.toSorted((a, b) => a.share - b.share);
  return first === undefined ? '–' : `${first.words} ${fixed(100 * first.share, 0)} % in hand`;
}
