import { Fault } from '../../fault/fault.ts';
import type { RuleSet } from '../rule-set.ts';
import { HEELING_MOMENT_RULES } from './heeling-moments.ts';
import { IMO_FISHING, IMO_SIMPLIFIED, IMO_WEATHER } from './imo.ts';
import { SPAIN_FISHING, SPAIN_WIND_AND_ROLL } from './spain-fishing.ts';
import { UK_HEEL_TEST, UK_PEOPLE, UK_PEOPLE_GM } from './united-kingdom.ts';
import { US_FISHING, US_WORKING } from './united-states.ts';

/** Every rule set that comes with the program. */
export const RULE_SETS: readonly RuleSet[] = [
  SPAIN_FISHING,
  SPAIN_WIND_AND_ROLL,
  US_FISHING,
  US_WORKING,
  UK_HEEL_TEST,
  UK_PEOPLE,
  UK_PEOPLE_GM,
  IMO_FISHING,
  IMO_SIMPLIFIED,
  IMO_WEATHER,
  ...HEELING_MOMENT_RULES,
];

/**
 * The sets of these names, an authority's own among them. Throws `rules-unknown`, and
 * `input-contradiction` where two sets have one name.
 */
export function ruleSetsNamed(ids: readonly string[], own: readonly RuleSet[] = []): RuleSet[] {
  const all = [...own, ...RULE_SETS];
  const twice = all.find((set, k) => all.findIndex((one) => one.id === set.id) < k);
  if (twice !== undefined)
    throw new Fault('input-contradiction', 'rule sets', `two are called ${twice.id}`);
  return ids.map((id) => {
    const found = all.find((set) => set.id === id);
    if (found !== undefined) return found;
    const names = all.map((set) => set.id).join(', ');
    throw new Fault('rules-unknown', 'rule set', `${id.slice(0, 60)}, known are ${names}`);
  });
}
