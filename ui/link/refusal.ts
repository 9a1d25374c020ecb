import { FAULTS } from '#core/fault/fault.ts';

/** A refusal as it is told: what it means, what was found, what to do; never a code alone. */
export interface RefusalTold {
  readonly title: string;
  readonly found: string;
  readonly remedy: string;
}

export function refusalTold(refusal: { code: string; found: string; remedy: string }): RefusalTold {
  const table: Readonly<Record<string, { means: string }>> = FAULTS;
  const means = table[refusal.code]?.means;
  const title = means === undefined ? 'Not done' : `Not done: ${means}`;
  return { title: `${title}.`, found: `${sentence(refusal.found)}`, remedy: refusal.remedy };
}

/** Words of the core as a sentence of the screen: a capital, a full stop, the degree ring. */
export function sentence(words: string): string {
  const upper = (words.charAt(0).toUpperCase() + words.slice(1)).replaceAll(/ deg\b/g, '°');
  return /[.!?]$/.test(upper) ? upper : `${upper}.`;
}
