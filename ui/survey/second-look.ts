import { distanceKey, plannedDistances } from '#core/session/planned-distances.ts';
import type { SessionState } from '#core/session/session.ts';
import { entriesOf, type SurveyEntry } from '#core/session/survey-state.ts';

/** A mass or a distance as the test states it, and as a second person read it. */
export interface SecondLook {
  readonly key: string;
  readonly kind: 'weight' | 'distance';
  /** "Mass of A", "Shift 3, B". */
  readonly words: string;
  readonly unit: 't' | 'm';
  readonly stated: number;
  readonly second: Extract<SurveyEntry, { sheet: 'weight' | 'distance' }> | null;
  /** Second less stated, and whether it is more than both uncertainties leave; null: not read twice. */
  readonly difference: { readonly value: number; readonly large: boolean } | null;
  readonly state: number | null;
  readonly weight: string;
}

/** Two readings of one thing may differ by this many standard uncertainties of a single one. Our setting. */
const MOST_DEVIATIONS = 3;

/** Every mass, and every distance of the plan, beside what a second person read. */
export function secondLooks(session: SessionState): SecondLook[] {
  const { test, survey } = session;
  if (test === null) return [];
  const masses = test.weights.map((one): SecondLook => {
    const second = entriesOf(survey, 'weight').find(({ key }) => key === one.weight) ?? null;
    return {
      key: one.weight,
      kind: 'weight',
      words: `Mass of ${one.weight}`,
      unit: 't',
      stated: one.massT,
      second,
      difference: compared(one.massT, second?.value.massT, one.massUncertaintyT),
      state: null,
      weight: one.weight,
    };
  });
  const distances = plannedDistances(session).map(({ state, weight, distanceM }): SecondLook => {
    const key = distanceKey({ state, weight });
    const second = entriesOf(survey, 'distance').find((one) => one.key === key) ?? null;
    return {
      key,
      kind: 'distance',
      words: `Shift ${state}, ${weight}`,
      unit: 'm',
      stated: distanceM,
      second,
      difference: compared(distanceM, second?.value.distanceM, test.distanceUncertaintyM),
      state,
      weight,
    };
  });
  return [...masses, ...distances];
}

function compared(stated: number, second: number | undefined, uncertainty: number) {
  if (second === undefined) return null;
  const value = second - stated;
  return { value, large: Math.abs(value) > MOST_DEVIATIONS * Math.SQRT2 * uncertainty };
}
