import { hashUniform } from '#core/numerics/random.ts';

/**
 * Events that keep coming while a disturbance is switched on: one in each slot of time, at a
 * random place in it. The first comes `firstS` after switching on, so that a person who turns the
 * switch sees what it does.
 */
export interface EventPlan {
  readonly stream: number;
  readonly firstS: number;
  readonly slotS: number;
  /** Share of the slot over which the start is spread. */
  readonly spread: number;
}

/** Draws of one event, each uniform on (0, 1), by number 0..7. */
export type EventDraw = (which: number) => number;

const DRAWS_AN_EVENT = 8;

/** The events that began at most `longestS` ago, with their age; times since switching on. */
export function eventsUnderWay(
  plan: EventPlan,
  sinceOnS: number,
  longestS: number,
): { ageS: number; draw: EventDraw }[] {
  const underWay: { ageS: number; draw: EventDraw }[] = [];
  const last = Math.floor((sinceOnS - plan.firstS) / plan.slotS);
  const first = Math.max(0, Math.floor((sinceOnS - plan.firstS - longestS) / plan.slotS) - 1);
  for (let event = first; event <= last; event++) {
    const draw: EventDraw = (which) => hashUniform(plan.stream, event * DRAWS_AN_EVENT + which);
    const late = event === 0 ? 0 : draw(0) * plan.spread * plan.slotS;
    const ageS = sinceOnS - plan.firstS - event * plan.slotS - late;
    if (ageS >= 0 && ageS <= longestS) underWay.push({ ageS, draw });
  }
  return underWay;
}
