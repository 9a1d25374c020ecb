import { TRIP_QUESTIONS, type TripQuestionCode } from '#core/condition/trip.ts';
import { NOTES } from '#core/stability/answer.ts';
import { NOT_JUDGED } from '#core/stability/judge-clause.ts';
import type { ConditionAnswer, StabilityOutput } from '#core/stability/stability-output.ts';
import { fixedWords, tableWords } from './figure.ts';
import { sinceTestsWords } from './since-tests-words.ts';

type SetAnswer = ConditionAnswer['ruleSets'][number];
type ClauseAnswer = SetAnswer['clauses'][number];
type FigureAnswer = ClauseAnswer['figures'][number];

/** The answer of `stability` as lines of words; figures are rounded here only. */
export function stabilityWords(answer: StabilityOutput): string[] {
  return [
    `${answer.vessel}${answer.invented ? ' (an invented vessel)' : ''}: loading conditions`,
    ...(answer.lightshipSource === null ? [] : [`lightship: ${answer.lightshipSource}`]),
    ...(answer.notCounted.length === 0
      ? []
      : [`not counted as buoyant: ${answer.notCounted.join(', ')}`]),
    ...answer.conditions.flatMap(conditionWords),
    ...questionWords(answer.questions),
    ...sinceTestsWords(answer.sinceTests),
    '',
    ...answer.standing,
  ];
}

function questionWords(questions: StabilityOutput['questions']): string[] {
  if (questions.length === 0) return [];
  const words = (code: string) => TRIP_QUESTIONS[code as TripQuestionCode];
  return ['', 'To be settled', ...questions.map(({ code, where }) => `  ${where}: ${words(code)}`)];
}

const metres = (value: number) => `${fixedWords(value, 3)} m`;
const degrees = (value: number | null) =>
  value === null ? 'not within 90 degrees' : `${fixedWords(value, 1)} degrees`;

function conditionWords(one: ConditionAnswer): string[] {
  return [
    '',
    `${one.condition.toUpperCase()} (${one.kind})`,
    ...tableWords([
      ['', 'mass, t', 'x, m', 'y, m', 'z, m', 'free surface, t m'],
      ...one.rows.map((row) => [
        row.what,
        ...[row.massT, row.xM, row.yM, row.zM].map((value) => fixedWords(value, 3)),
        row.freeSurfaceTM === 0 ? '' : fixedWords(row.freeSurfaceTM, 3),
      ]),
      [
        'together',
        ...[one.displacementT, one.lcgM, one.tcgM, one.kgM].map((value) => fixedWords(value, 3)),
        fixedWords(one.freeSurfaceTM, 3),
      ],
    ]),
    ...tableWords([
      [
        'draught aft / midway / forward',
        [one.draughtAftM, one.draughtMeanM, one.draughtForwardM].map(metres).join(' / '),
      ],
      ['trim by the stern', metres(one.trimM)],
      ['list to starboard', one.listDeg === null ? 'she rests nowhere' : degrees(one.listDeg)],
      ['least freeboard to the deck', metres(one.leastFreeboardM)],
      ['KM', metres(one.kmTransverseM)],
      ['KG, liquids as if solid', `${metres(one.kgM)}${spreadWords(one)}`],
      ['GM solid / fluid', `${metres(one.gmSolidM)} / ${metres(one.gmFluidM)}`],
    ]),
    ...leverWords(one),
    ...one.ruleSets.flatMap(setWords),
  ];
}

function spreadWords({ kgUncertainty }: ConditionAnswer): string {
  if (kgUncertainty === null) return ', no uncertainty known';
  return ` ± ${fixedWords(1000 * kgUncertainty.halfWidth95, 1)} mm`;
}

const LEVERS_AT_DEG = [0, 10, 20, 30, 40, 50, 60, 70, 80, 90];

function leverWords({ sides }: ConditionAnswer): string[] {
  const [starboard, port] = sides as [ConditionAnswer['sides'][number], (typeof sides)[number]];
  const rows = LEVERS_AT_DEG.map((heelDeg) => {
    const [s, p] = [starboard, port].map(
      ({ points }) => points.find((point) => point.heelDeg === heelDeg)!,
    );
    return [
      fixedWords(heelDeg, 0),
      fixedWords(s!.exactM, 4),
      fixedWords(p!.exactM, 4),
      fixedWords(s!.uprightM, 4),
      fixedWords(s!.formulaM, 4),
    ];
  });
  return [
    ...tableWords([['heel', 'GZ starboard', 'GZ port', 'upright surfaces', 'by k'], ...rows]),
    ...sides.flatMap((side) => [
      `to ${side.side}: greatest GZ ${metres(side.maximum.leverM)} at ${degrees(side.maximum.heelDeg)}, vanishes ${degrees(side.vanishingDeg)}, deck edge ${degrees(side.deckEdgeDeg)}`,
      ...side.openings.map(
        ({ opening, openFrom, immersedDeg }) =>
          `  ${opening} (${openFrom === null ? 'kept shut' : KEPT_WORDS[openFrom]}): ${degrees(immersedDeg)}`,
      ),
    ]),
  ];
}

const KEPT_WORDS = {
  weathertight: 'nothing closes it weathertight',
  'open-at-sea': 'kept open at sea',
  'open-at-worst': 'open at the worst moment',
} as const;

function setWords(set: SetAnswer): string[] {
  const head = `${set.title}: ${set.source}, ${set.edition}`;
  const outside = set.outside.map(
    ({ wanted, found }) => `  she is outside: ${wanted}; ${found || 'not given'}`,
  );
  const asked = set.clauses.filter(({ verdict }) => verdict !== 'not-asked');
  if (set.outside.length > 0) return [head, ...outside, '  not judged'];
  return [head, ...asked.flatMap(clauseWords)];
}

const VERDICTS = {
  met: 'met',
  'met-within-uncertainty': 'met, margin within uncertainty',
  'not-met': 'not met',
  'not-judged': 'not judged',
  'not-asked': 'not asked',
} as const;

function clauseWords(clause: ClauseAnswer): string[] {
  const signed = clause.verdict === 'met-within-uncertainty' && clause.countsAsMet === true;
  const verdict = `${VERDICTS[clause.verdict]}${signed ? ', signed for by the architect' : ''}`;
  const seen =
    clause.side === null || clause.freeSurface === null
      ? ''
      : ` (to ${clause.side}, liquids ${clause.freeSurface})`;
  const why =
    clause.notJudged === null
      ? []
      : [
          `    ${NOT_JUDGED[clause.notJudged.code as keyof typeof NOT_JUDGED]}: ${clause.notJudged.detail}`,
        ];
  const computed =
    clause.verdict === 'not-judged' && clause.computed !== null
      ? [`    computed: ${VERDICTS[clause.computed]}; not verified, not for submission`]
      : [];
  return [
    `  ${clause.printed} ${clause.words} ${verdict}${seen}`,
    ...clause.figures.map((figure) => `    ${figureWords(figure)}`),
    ...why,
    ...computed,
  ];
}

const UNITS = { area: 'm rad', length: 'm', heel: 'degrees', ratio: '' } as const;
const DECIMALS = { area: 4, length: 3, heel: 1, ratio: 3 } as const;
const BOUNDS = {
  'at-least': 'at least',
  above: 'above',
  'at-most': 'at most',
  below: 'below',
} as const;

function figureWords(figure: FigureAnswer): string {
  const decimals = DECIMALS[figure.dimension];
  const unit = UNITS[figure.dimension];
  const one = (value: number) => `${fixedWords(value, decimals)} ${unit}`.trimEnd();
  const spread =
    figure.expandedUncertainty === null
      ? ', uncertainty not known'
      : ` ± ${fixedWords(figure.expandedUncertainty, decimals + 1)}`;
  const chance =
    figure.outcome === 'met-within-uncertainty' && figure.chance !== null
      ? `, ${fixedWords(100 * figure.chance, 0)} in 100 that it holds`
      : '';
  const note = figure.note === null ? '' : `; ${NOTES[figure.note as keyof typeof NOTES]}`;
  return `${figure.quantity}: ${one(figure.value)}, ${BOUNDS[figure.bound]} ${one(figure.limit)}, margin ${one(figure.margin)}${spread}${chance}${note}`;
}
