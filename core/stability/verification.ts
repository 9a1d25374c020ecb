import { z } from 'zod';
import { Fault } from '../fault/fault.ts';
import type { RuleSet } from './rule-set.ts';

const line = z
  .string()
  .regex(/^[^\p{Cc}\p{Cf}]*$/u, 'holds a control character')
  .trim()
  .min(1)
  .max(200);

/** That a named person looked a clause up, so that it may judge. */
export const verification = z.strictObject({
  ruleSet: line,
  clause: line,
  by: line,
  source: line,
  edition: line,
  page: line,
});
export type Verification = z.infer<typeof verification>;

/** Sets in which the clauses looked up may judge. Throws `rules-unknown` for a clause no set has. */
export function withVerified(
  sets: readonly RuleSet[],
  verifications: readonly Verification[],
): readonly RuleSet[] {
  for (const { ruleSet, clause } of verifications) {
    const set = sets.find((one) => one.id === ruleSet);
    if (!set?.clauses.some((one) => one.id === clause))
      throw new Fault('rules-unknown', 'verified', `${ruleSet} ${clause}`.slice(0, 120));
  }
  return sets.map((set) => ({
    ...set,
    clauses: set.clauses.map((one) => {
      const found = verifications.find(
        ({ ruleSet, clause }) => ruleSet === set.id && clause === one.id,
      );
      if (found === undefined) return one;
      const { by, source, edition, page } = found;
      return { ...one, provenance: { by, source, edition, page } };
    }),
  }));
}
