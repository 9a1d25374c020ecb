import { studentTQuantile } from '../numerics/student-t.ts';
import { type Uncertain, uncertainFromContributions } from '../quantity/uncertainty.ts';
import { momentsCentre, momentsTimes, momentsTogether } from '../survey/mass-moments.ts';
import type { LoadedCondition } from './condition.ts';

/** KG solid of a condition with all its weights' errors; null where the lightship's are not known. */
export function conditionKg({ moments, causes, centre }: LoadedCondition): Uncertain | null {
  if (causes === null) return null;
  if (causes.length === 0) {
    const degreesOfFreedom = Number.POSITIVE_INFINITY;
    return { value: centre.zM, standardUncertainty: 0, degreesOfFreedom };
  }
  const height = (cause: (typeof causes)[number], by: number) =>
    momentsCentre(momentsTogether([moments, momentsTimes(cause, by)])).zM;
  return uncertainFromContributions(
    centre.zM,
    causes.map((one) => ({
      cause: one.cause,
      standardUncertainty: Math.abs(height(one, 1) - height(one, -1)) / 2,
      degreesOfFreedom: one.degreesOfFreedom,
    })),
  );
}

/** What KG stays below with a chance of 95 %, one-sided, m: tables for the crew go by this. */
export function upperKg95M(kg: Uncertain): number {
  const times = studentTQuantile(0.95, kg.degreesOfFreedom);
  return kg.value + times * kg.standardUncertainty;
}
