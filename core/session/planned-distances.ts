import type { Place } from '../record/line.ts';
import type { SessionState } from './session.ts';

/** How far each weight goes across by each shift of the plan, to starboard positive. */
export function plannedDistances({
  test,
}: Pick<SessionState, 'test'>): { state: number; weight: string; distanceM: number }[] {
  if (test === null) return [];
  const at = new Map<string, Place>(test.weights.map((one) => [one.weight, one.at]));
  return test.plan.flatMap(({ moves }, k) =>
    moves.flatMap(({ weight, to }) => {
      const from = at.get(weight);
      if (from === undefined) return [];
      at.set(weight, to);
      return [{ state: k + 1, weight, distanceM: to.yM - from.yM }];
    }),
  );
}

/** The key of its row on the sheet of distances. */
export const distanceKey = (move: { readonly state: number; readonly weight: string }) =>
  `${move.state} ${move.weight}`;
