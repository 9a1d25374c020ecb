/** Settled within this after a change of heel: such an instrument shows the vessel, not itself. */
export const PROMPT_S = 10;

/**
 * The instruments whose heel is the vessel's, of those that are used: the prompt ones where there
 * are any. A slow one (the water tube) is a reading of its own.
 */
export function leadingOf<T>(used: readonly T[], settlingS: (one: T) => number): readonly T[] {
  const prompt = used.filter((one) => settlingS(one) <= PROMPT_S);
  return prompt.length > 0 ? prompt : used;
}
