import { conditionKg, upperKg95M } from '../condition/condition-uncertainty.ts';
import type { EvidenceQuestion } from '../stability/condition-evidence.ts';
import { momentsCentre } from '../survey/mass-moments.ts';

/**
 * The condition as tables and advice for the crew take it: her centre as high as the upper one-sided
 * 95 % of KG, everything then as if certain. Null where the lightship's uncertainty is not known:
 * nothing is told the crew of such a vessel.
 */
export function atUpperKg(question: EvidenceQuestion): EvidenceQuestion | null {
  const { loaded } = question;
  const kg = conditionKg(loaded);
  if (kg === null) return null;
  const { massT, zTM } = loaded.moments;
  const moments = { ...loaded.moments, zTM: zTM + massT * (upperKg95M(kg) - kg.value) };
  return {
    ...question,
    loaded: { ...loaded, moments, centre: momentsCentre(moments), causes: null },
  };
}
