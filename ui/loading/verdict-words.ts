import type { Answer } from '#core/limits/judged-picture.ts';
import type { MostHere } from '#core/limits/most-here.ts';
import type { ClauseVerdict, Verdict } from '#core/stability/judge-clause.ts';
import { NOT_JUDGED } from '#core/stability/judge-clause.ts';
import type { Figure } from '#core/stability/margin.ts';
import { fixed, signed } from '../show/figure.ts';

const VERDICTS: Readonly<Record<Verdict, string>> = {
  met: 'met',
  'met-within-uncertainty': 'met, margin within uncertainty',
  'not-met': 'not met',
  'not-judged': 'not judged',
  'not-asked': 'not asked',
};

export function verdictWords(verdict: Verdict): string {
  return VERDICTS[verdict];
}

const UNITS = { area: 'm rad', length: 'm', heel: '°', ratio: '' } as const;
const DECIMALS = { area: 4, length: 3, heel: 1, ratio: 2 } as const;

/** A figure's value, limit or margin with its unit. */
export function figureWords(of: Pick<Figure, 'dimension'>, value: number): string {
  return withUnit(of, fixed(value, DECIMALS[of.dimension]));
}

/** What is in hand, with its ± where one is known: `+0.052 ± 0.012 m`. */
export function inHandWords(figure: Figure): string {
  const decimals = DECIMALS[figure.dimension];
  const spread = figure.expandedUncertainty;
  const half = spread === null ? '' : ` ± ${fixed(spread, decimals)}`;
  return withUnit(figure, `${signed(figure.margin, decimals)}${half}`);
}

function withUnit({ dimension }: Pick<Figure, 'dimension'>, text: string): string {
  const unit = UNITS[dimension];
  return unit === '' ? text : unit === '°' ? `${text}°` : `${text}\u00a0${unit}`;
}

/** Why a clause is not judged. */
export function notJudgedWords({ notJudged }: ClauseVerdict): string {
  if (notJudged === null) return '';
  const detail = notJudged.detail === '' ? '' : ` (${notJudged.detail})`;
  return `${NOT_JUDGED[notJudged.code]}${detail}`;
}

/** The answer in a sentence or two; `withIt`: of the change asked about. */
export function answerWords(answer: Answer, withIt: boolean): string {
  const then = withIt ? 'with it' : 'as she is';
  const left =
    answer.notJudged === 0
      ? ''
      : ` ${answer.notJudged} ${answer.notJudged === 1 ? 'is' : 'are'} not judged.`;
  const { governs } = answer;
  if (governs === null) return `No clause could be judged ${then}.${left}`;
  const clause = `${sentence(governs.words)} (${governs.printed})`;
  const worst = governs.figures[0];
  if (answer.outcome === 'met') {
    const hand = worst === undefined ? '' : `, ${inHandWords(worst)} in hand`;
    return `Every clause that is judged is met ${then}. Tightest: ${clause}${hand}.${left}`;
  }
  if (governs.verdict === 'met-within-uncertainty') {
    const chance =
      worst?.chance == null ? '' : `, ${fixed(100 * worst.chance, 0)} in 100 that it holds`;
    return `No: ${clause} is met ${then} by less than its uncertainty${chance}. That counts as not met.${left}`;
  }
  return `No: ${clause} is not met ${then}.${left}`;
}

/** Without its full stop, to stand inside a sentence. */
function sentence(words: string): string {
  return words.replace(/\.$/, '');
}

/** The most at a place, in a sentence. */
export function mostWords(most: MostHere | null, doing: string): string {
  if (most === null) return 'No clause could be judged, so no most can be said.';
  if (most.beyondT !== null)
    return `No limit was found up to ${fixed(most.beyondT, 2)} t ${doing}; more was not looked for.`;
  const { governs } = most;
  const clause =
    governs === null
      ? null
      : `${sentence(governs.words)} (${governs.printed}), ${verdictWords(governs.verdict)}`;
  if (most.massT === 0)
    return `Nothing may be ${doing}. ${clause === null ? 'She cannot float so.' : `As she is: ${clause}.`}`;
  const why =
    clause === null ? 'More would sink her or leave her no rest.' : `With more: ${clause}.`;
  return `At most ${fixed(floorTo(most.massT, 2), 2)} t ${doing}. ${why}`;
}

/** A most is never rounded up. */
function floorTo(value: number, decimals: number): number {
  const unit = 10 ** decimals;
  return Math.floor(value * unit) / unit;
}
