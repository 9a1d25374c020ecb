import type { ShiftState } from './session.ts';

/** Shifts of the plan that were begun. A resumed day reads its arrangement again without one. */
export function shiftsBegun(states: readonly ShiftState[]): number {
  return states.filter(({ asWritten }) => asWritten !== null).length;
}
