import type { ConditionEvidence, VesselParticulars } from './evidence.ts';
import type { AppliesTo, Clause } from './rule-set.ts';

/** Why a set does not judge her: what it asks and what she is. */
export interface NotFor {
  readonly code: 'not-given' | 'outside';
  readonly field: keyof AppliesTo;
  readonly wanted: string;
  readonly found: string;
}

/** Everything in which she is outside what a rule set applies to, or not known to be inside. */
export function outsideOf(applies: AppliesTo, vessel: VesselParticulars): readonly NotFor[] {
  const found: NotFor[] = [];
  const ask = (field: keyof AppliesTo, wanted: string, is: string | null, holds: boolean): void => {
    if (is === null) found.push({ code: 'not-given', field, wanted, found: '' });
    else if (!holds) found.push({ code: 'outside', field, wanted, found: is });
  };
  if (applies.length !== undefined) {
    const { measure, fromM, underM } = applies.length;
    const lengthM = vessel.lengthsM[measure];
    const wanted = [
      fromM === undefined ? '' : `from ${fromM} m`,
      underM === undefined ? '' : `under ${underM} m`,
      `length ${measure}`,
    ];
    ask(
      'length',
      wanted.filter((part) => part !== '').join(' '),
      lengthM === undefined ? null : `${lengthM} m`,
      lengthM !== undefined && lengthM >= (fromM ?? 0) && lengthM < (underM ?? Infinity),
    );
  }
  const { services, waters, builtOn, decked } = vessel;
  if (applies.services !== undefined) {
    const holds = services?.some((one) => applies.services?.includes(one)) ?? false;
    ask('services', applies.services.join(' or '), services?.join(', ') ?? null, holds);
  }
  if (applies.waters !== undefined) {
    const holds = waters !== null && applies.waters.includes(waters);
    ask('waters', applies.waters.join(' or '), waters, holds);
  }
  if (applies.builtFrom !== undefined)
    ask(
      'builtFrom',
      `built from ${applies.builtFrom}`,
      builtOn,
      (builtOn ?? '') >= applies.builtFrom,
    );
  if (applies.builtBefore !== undefined)
    ask(
      'builtBefore',
      `built before ${applies.builtBefore}`,
      builtOn,
      (builtOn ?? '9') < applies.builtBefore,
    );
  if (applies.decked !== undefined)
    ask(
      'decked',
      applies.decked ? 'decked' : 'not decked',
      decked === null ? null : decked ? 'decked' : 'not decked',
      decked === applies.decked,
    );
  return found;
}

/**
 * Whether a clause is asked of this vessel in this condition, by its lists; `null` where a particular
 * it goes by is not given.
 */
export function isAsked(clause: Clause, { vessel, kind }: ConditionEvidence): boolean | null {
  if (clause.conditions !== undefined && !clause.conditions.includes(kind)) return false;
  const answers = [
    clause.hulls === undefined
      ? true
      : vessel.hulls === null
        ? null
        : vessel.hulls === clause.hulls,
    clause.decked === undefined
      ? true
      : vessel.decked === null
        ? null
        : vessel.decked === clause.decked,
    clause.services === undefined
      ? true
      : vessel.services === null
        ? null
        : vessel.services.some((one) => clause.services?.includes(one)),
  ];
  if (answers.includes(false)) return false;
  return answers.includes(null) ? null : true;
}

/** The factor on a clause's limits for this vessel; `null` where her services are not given. */
export function factorFor(clause: Clause, vessel: VesselParticulars): number | null {
  const { factor } = clause;
  if (factor === undefined) return 1;
  if (vessel.services === null) return null;
  return vessel.services.some((one) => factor.services.includes(one)) ? factor.times : 1;
}
