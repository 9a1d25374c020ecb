import type { ShiftState } from './session.ts';

/** States that shifts of the plan led to, in their order. A resumed day reads one again without any move. */
export function shiftsBegun(states: readonly ShiftState[]): readonly ShiftState[] {
  return states.filter(({ moves }) => moves.length > 0);
}
