import { CLOSING_WORDS } from '#core/report/closing-words.ts';
import type { DayReduction } from '#core/session/day-reduction.ts';
import type { Missing } from '#core/session/missing.ts';
import type { ClosingFound } from '#core/survey/closing.ts';
import { significantWords } from './figure.ts';
import { reductionWords } from './reduce-words.ts';

/** What the survey adds to the result of a record; nothing where no hull is entered. */
export function dayWords(
  day: DayReduction,
  closing: ClosingFound | null,
  missing: readonly Missing[],
): string[] {
  return [...reductionPart(day), ...closingPart(closing), ...missingPart(missing)];
}

function reductionPart({ byHull, reduction, refused }: DayReduction): string[] {
  if (!byHull) return [];
  if (reduction !== null)
    return ['', 'By her hull, as she floats', '', ...reductionWords(reduction)];
  return ['', `By her hull: none: ${refused?.code}: ${refused?.where}: ${refused?.found}`];
}

function closingPart(closing: ClosingFound | null): string[] {
  if (closing === null) return [];
  const { deeperM, gainedT } = closing;
  const gained = gainedT === null ? '' : `, ${significantWords(gainedT, 3)} t`;
  return [
    '',
    'The end of the day against its beginning',
    ...(deeperM === null
      ? []
      : [`  she lies ${significantWords(1000 * deeperM, 3)} mm deeper${gained}`]),
    ...closing.causes.map((cause) => `  ${CLOSING_WORDS[cause]}`),
  ];
}

function missingPart(missing: readonly Missing[]): string[] {
  if (missing.length === 0) return [];
  return ['', 'Not entered', ...missing.map(({ what, why }) => `  ${what}: ${why}`)];
}
