import type { AccuracyAnswer, BesidePendulum } from '#core/reading/as-accurate.ts';

/** The three answers; a test that shows neither says so. */
export const ACCURACY_WORDS: Readonly<Record<AccuracyAnswer, string>> = {
  shown: 'shown',
  'shown-worse': 'shown to be worse',
  'not-shown': 'not shown by this test',
};

type Beside = BesidePendulum & { readonly pendulum: string; readonly blindStates: number };
type Format = (value: number, decimals: number) => string;

/** What one pendulum beside a sensor shows, in a sentence. */
export function besideWords(beside: Beside, fixed: Format, signed: Format): string {
  const { states, varianceRatio, upper95, lower95, slopeDifference, slopesAgree } = beside;
  const blind = `${beside.blindStates} of ${states} states read blind`;
  if (varianceRatio === null || upper95 === null || lower95 === null || slopeDifference === null)
    return `Beside ${beside.pendulum}: ${states} states, five are needed, ${blind}.`;
  const digits = (value: number) => fixed(value, value < 0.095 ? 4 : value < 10 ? 2 : 0);
  const slopes = `slopes ${slopesAgree ? 'agree' : 'do not agree'} (${signed(100 * slopeDifference, 2)} %)`;
  return `Beside ${beside.pendulum}: variance ${digits(varianceRatio)} of its, 95 % bounds ${digits(lower95)} and ${digits(upper95)}, one-sided; ${slopes}; ${blind}.`;
}
