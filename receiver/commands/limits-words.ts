import type { LimitsOutput } from '#core/limits/limits-output.ts';
import { remedyWords } from '#core/report/remedy-words.ts';
import { fixedWords, tableWords } from './figure.ts';

type WhatIf = NonNullable<LimitsOutput['whatIf']>[number];

/** Limits, wheelhouse table, remedies and what-if as lines of words; figures are rounded here only. */
export function limitsWords(limits: LimitsOutput): string[] {
  return [
    ...curveWords(limits.limitingKg),
    ...tableOfWheelhouse(limits.wheelhouse),
    ...(limits.remedies ?? []).flatMap(remediesWords),
    ...(limits.whatIf ?? []).flatMap(whatIfWords),
  ];
}

const metres = (value: number) => fixedWords(value, 3);
const clauses = (governing: readonly { printed: string; clause: string }[]) =>
  governing.map(({ printed, clause }) => `${printed} ${clause}`).join(', ');

function curveWords(rows: LimitsOutput['limitingKg']): string[] {
  if (rows === null) return [];
  return [
    '',
    'LIMITING KG, free surfaces counted in KG',
    ...tableWords([
      ['displacement, t', 'trim by the stern, m', 'KG at most, m', 'governed by'],
      ...rows.map((row) => [
        fixedWords(row.displacementT, 2),
        metres(row.trimM),
        row.kgM === null ? 'none' : metres(row.kgM),
        clauses(row.governing),
      ]),
    ]),
  ];
}

function tableOfWheelhouse(table: LimitsOutput['wheelhouse']): string[] {
  if (table === null) return [];
  const { heading, rows } = table;
  const list = (names: readonly string[]) => (names.length === 0 ? 'none' : names.join(', '));
  return [
    '',
    'WHEELHOUSE TABLE, at the upper 95 % of KG',
    `Holds only with these shut at sea: ${list(heading.takenAsShut)}.`,
    `Counted as open at sea: ${list(heading.openAtSea)}; at the worst moment also: ${list(heading.openAtWorst)}; always: ${list(heading.neverShut)}.`,
    `Not judged: ${list(heading.notJudged)}.`,
    ...tableWords([
      ['condition', 't', 'draught, m', 'least freeboard, m', 'KG upper, m', 'KG at most, m', ''],
      ...rows.map((row) => [
        row.condition,
        fixedWords(row.displacementT, 1),
        fixedWords(row.meanDraughtM, 2),
        fixedWords(row.leastFreeboardM, 2),
        row.upperKgM === null ? 'not known' : metres(row.upperKgM),
        row.limitingKgM === null ? 'none' : metres(row.limitingKgM),
        row.within ? 'within' : `NOT within: ${clauses(row.governing)}`,
      ]),
    ]),
    ...rows
      .filter(({ slackTanks }) => slackTanks.length > 0)
      .map((row) => `  ${row.condition}: slack ${row.slackTanks.join(', ')}`),
  ];
}

function remediesWords(one: NonNullable<LimitsOutput['remedies']>[number]): string[] {
  const high =
    one.kgTooHighM === null
      ? 'no lower KG alone puts it right'
      : `KG would have to come down by ${metres(one.kgTooHighM)} m`;
  return [
    '',
    `WHAT WOULD PUT IT RIGHT: ${one.condition}, ${high}`,
    `  not met: ${clauses(one.failing)}`,
    ...(one.remedies.length === 0
      ? ['  nothing looked at does so by itself']
      : one.remedies.map((remedy) => `  ${remedyWords(remedy)}`)),
  ];
}

const OUTCOMES = {
  met: 'all that is judged is met',
  'not-met': 'not met',
  'nothing-judged': 'not judged',
} as const;

function whatIfWords({ condition, change, before, after, most }: WhatIf): string[] {
  const row = (what: string, of: (figures: WhatIf['before']) => number, decimals: number) => [
    what,
    fixedWords(of(before), decimals),
    fixedWords(of(after), decimals),
    fixedWords(of(after) - of(before), decimals),
  ];
  const list = (deg: number | null) => (deg === null ? 'no rest' : fixedWords(deg, 1));
  return [
    '',
    `WHAT IF: ${change}, in ${condition}`,
    ...tableWords([
      ['', 'before', 'after', 'difference'],
      row('displacement, t', (one) => one.displacementT, 2),
      row('KG solid, m', (one) => one.kgM, 3),
      row('GM fluid, m', (one) => one.gmFluidM, 3),
      row('draught, m', (one) => one.meanDraughtM, 3),
      row('trim, m', (one) => one.trimM, 3),
      row('least freeboard, m', (one) => one.leastFreeboardM, 3),
      ['list, degrees', list(before.listDeg), list(after.listDeg), ''],
    ]),
    `  before: ${OUTCOMES[before.outcome]} (${before.governs}); after: ${OUTCOMES[after.outcome]} (${after.governs})`,
    mostWords(most),
  ];
}

function mostWords(most: WhatIf['most']): string {
  if (most === null) return '  the most of it: not judged';
  if (most.beyondT !== null)
    return `  no limit found up to ${fixedWords(most.beyondT, 2)} t; not looked for beyond`;
  return `  the most of it there: ${fixedWords(most.massT, 2)} t (${most.governs ?? 'she does not float with more'})`;
}
