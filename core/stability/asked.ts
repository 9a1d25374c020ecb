import type {
  ConditionEvidence,
  FreeSurfaceMethod,
  Levers,
  OpeningState,
  Side,
} from './evidence.ts';

/** One condition seen from one side, with the liquids counted one way. */
export interface Asked {
  readonly evidence: ConditionEvidence;
  readonly side: Side;
  readonly method: FreeSurfaceMethod;
}

export function leversOf({ evidence, side, method }: Asked): Levers {
  return evidence.levers(side, method);
}

/** Levers to the other side. */
export function acrossOf({ evidence, side, method }: Asked): Levers {
  return evidence.levers(side === 'starboard' ? 'port' : 'starboard', method);
}

/** Where levers stop counting, rad: at flooding, or null where nothing floods or it is not asked. */
export function stopRad({ evidence, side }: Asked, stops: OpeningState | null): number | null {
  return stops === null ? null : evidence.downfloodingRad(side, stops);
}
