import { z } from 'zod';
import { Fault } from '../fault/fault.ts';

/** What one instrument showed before and while starboard was pushed down, and the seal on its box. */
export const signConfirmed = z.strictObject({
  instrument: z.string().min(1).max(64),
  /** Heel as the screen shows it, degrees, starboard down positive. */
  beforeDeg: z.number().min(-90).max(90),
  pushedDeg: z.number().min(-90).max(90),
  /** As read off the box; null: it has none, or nobody looked. */
  seal: z.string().trim().min(1).max(64).nullable(),
});
export type SignConfirmed = z.infer<typeof signConfirmed>;

/** A push that shows less proves no side, degrees: ours. */
export const LEAST_PUSH_DEG = 0.02;

/** Why this confirms no sign; null: it does. Faults: `sign-wrong`. */
export function signRefusal({ instrument, beforeDeg, pushedDeg }: SignConfirmed): Fault | null {
  const gained = pushedDeg - beforeDeg;
  if (gained >= LEAST_PUSH_DEG) return null;
  return new Fault(
    'sign-wrong',
    instrument,
    gained <= -LEAST_PUSH_DEG
      ? `it went to port by ${-gained} degrees`
      : `it moved by ${gained} degrees, ${LEAST_PUSH_DEG} are asked`,
  );
}
