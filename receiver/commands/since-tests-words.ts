import type { SinceTests } from '#core/stability/stability-output.ts';
import { fixedWords, significantWords, tableWords } from './figure.ts';

const FIGURES = { mass: 'mass, t', lcg: 'LCG, m', tcg: 'TCG, m', vcg: 'VCG, m' } as const;
const ANSWERS = {
  due: 'due',
  'not-due': 'not due',
  'not-due-within-uncertainty': 'not due, within the uncertainty of the tests',
  'from-memory': 'told from memory, decides nothing',
} as const;
const COVERAGE = 1.96;

/** How the lightship grew over her tests, and whether a new test is due; nothing without a history. */
export function sinceTestsWords(since: SinceTests | null): string[] {
  if (since === null) return [];
  const { growth, periods, lightshipNow, clauses } = since;
  return [
    '',
    'Since her tests',
    ...(growth.length === 0
      ? []
      : tableWords([
          ['', 'first to last', 'a year', ''],
          ...growth.map(({ figure, change, aYear, moreThanChance }) => [
            FIGURES[figure],
            fixedWords(change, 3),
            aYear.standardUncertainty === null
              ? fixedWords(aYear.value, 4)
              : `${fixedWords(aYear.value, 4)} ± ${significantWords(COVERAGE * aYear.standardUncertainty, 2)}`,
            chanceWords(moreThanChance),
          ]),
        ])),
    ...periods.map(
      ({ condition, fromS, toS, gmLostShare, moreThanChance }) =>
        `  roll period, ${condition}: ${fixedWords(fromS, 2)} to ${fixedWords(toS, 2)} s, GM less by ${fixedWords(100 * gmLostShare, 1)} % if all else is as it was (${chanceWords(moreThanChance)})`,
    ),
    `  lightship with the changes since: ${fixedWords(lightshipNow.massT, 3)} t, LCG ${fixedWords(lightshipNow.lcgM, 3)} m, VCG ${fixedWords(lightshipNow.vcgM, 3)} m; changed in all ${fixedWords(lightshipNow.aggregateT, 3)} t`,
    '  Is a new test due?',
    ...clauses.map(
      ({ clause, words, value, limit, unit, asksFor, answer }) =>
        `    ${clause}: ${words}: ${significantWords(value, 3)} of ${significantWords(limit, 3)} ${unit}: ${asksFor} ${ANSWERS[answer]}`,
    ),
  ];
}

function chanceWords(moreThanChance: boolean | null): string {
  if (moreThanChance === null) return 'not every test states its uncertainty';
  return moreThanChance ? 'more than chance' : 'no more than chance';
}
