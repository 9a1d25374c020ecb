import { chiSquaredBeyond } from '../numerics/chi-squared.ts';
import { bracketedRoot } from '../numerics/root.ts';
import { groupsOf } from '../reduction/repeats.ts';
import type { SessionState } from './session.ts';

/** Do heels of the same arrangement, read again, differ by no more than their readings claim? */
export interface RepeatedStates {
  /** How many arrangements were read more than once, and how many readings of them there are. */
  readonly arrangements: number;
  readonly readings: number;
  readonly chiSquared: number;
  readonly degreesOfFreedom: number;
  /** Of so much, or more, by chance. */
  readonly probability: number;
  /** What is missing in each reading's standard error, degrees; 0 where they agree. */
  readonly missingDeg: number;
  readonly words: string;
}

/** Less often than this by chance the readings are taken to claim too much. Our setting. */
const TOO_MUCH_BY_CHANCE = 0.05;

/**
 * Joined heels of equal arrangements against their own standard errors. Where they differ by more,
 * something slow (wind, current, people, a mark missed) moved her between the states that no one
 * window shows: `missingDeg` added to each standard error makes chi squared what it should be.
 * Null where nothing was read again.
 */
export function repeatedStates(session: Pick<SessionState, 'states'>): RepeatedStates | null {
  const read = session.states.flatMap(({ reading, heelingMomentTM }) =>
    reading === null ? [] : [{ heelingMomentTM, ...reading.joined }],
  );
  const groups = groupsOf(read.map(({ heelingMomentTM }) => heelingMomentTM))
    .filter((group) => group.length > 1)
    .map((group) => group.map((k) => read[k]!));
  const readings = groups.reduce((sum, group) => sum + group.length, 0);
  if (groups.length === 0) return null;
  const degreesOfFreedom = readings - groups.length;
  const chiSquared = chiSquaredOf(groups, 0);
  const probability = chiSquaredBeyond(chiSquared, degreesOfFreedom);
  const missingDeg = probability < TOO_MUCH_BY_CHANCE ? missingOf(groups, degreesOfFreedom) : 0;
  return {
    arrangements: groups.length,
    readings,
    chiSquared,
    degreesOfFreedom,
    probability,
    missingDeg,
    words: wordsOf(missingDeg),
  };
}

type Heel = { readonly heelDeg: number; readonly standardErrorDeg: number };

function chiSquaredOf(groups: readonly (readonly Heel[])[], missingDeg: number): number {
  let chiSquared = 0;
  for (const group of groups) {
    const weights = group.map((one) => 1 / (one.standardErrorDeg ** 2 + missingDeg ** 2));
    const all = weights.reduce((sum, weight) => sum + weight, 0);
    const mean = group.reduce((sum, one, k) => sum + weights[k]! * one.heelDeg, 0) / all;
    group.forEach((one, k) => {
      chiSquared += weights[k]! * (one.heelDeg - mean) ** 2;
    });
  }
  return chiSquared;
}

function missingOf(groups: readonly (readonly Heel[])[], degreesOfFreedom: number): number {
  const tooMuch = (missingDeg: number) => chiSquaredOf(groups, missingDeg) - degreesOfFreedom;
  const heels = groups.flat().map(({ heelDeg }) => heelDeg);
  const most = Math.sqrt(heels.length) * (Math.max(...heels) - Math.min(...heels));
  return bracketedRoot(tooMuch, 0, most);
}

function wordsOf(missingDeg: number): string {
  if (missingDeg === 0) return 'The same arrangements, read again, agree within what they claim.';
  return (
    'The same arrangements, read again, differ by more than their readings claim: ' +
    `${missingDeg.toFixed(3)} degrees of each are missing (wind, current, people, a mark missed). ` +
    'It is added to what the next readings claim; GM has it in the scatter of the states.'
  );
}
