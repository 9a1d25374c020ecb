import type { FaultCode } from '#core/fault/fault.ts';

/** What can go wrong between an instrument and its driver. */
export const TROUBLES = [
  'no-answer',
  'short-reply',
  'stuck-value',
  'wrong-identity',
  'saturated',
] as const;
export type Trouble = (typeof TROUBLES)[number];

/**
 * One driver with its emulated instrument, as the one conformance test walks it: chips and serial
 * instruments alike, end to end from what the vessel does to the heel that is recorded.
 */
export interface UnderTest {
  readonly name: string;
  /** Heel one step of it stands for, degrees, by its sheet. */
  readonly stepDeg: number;
  /** How near its mean of a second must come on a perfect part, degrees: a step, and its noise. */
  readonly toleranceDeg: number;
  /** Heel it must read either way. */
  readonly rangeDeg: number;
  /** Mean heel of a second at each true one, starboard down positive; null where it told none. */
  heelDegAt(trueHeelDeg: readonly number[]): Promise<(number | null)[]>;
  /** The fault that stands beside its counts, or that it is refused with; null: none was told. */
  faultWhen(trouble: Trouble): Promise<FaultCode | null>;
  /** What each trouble has to be called; null: this kind cannot have it, for the reason given. */
  readonly called: Readonly<Record<Trouble, FaultCode | { readonly cannot: string }>>;
}
