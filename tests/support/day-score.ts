import type { DayOutcome } from './day.ts';

/** How near a simulated day came to the truth. GM in metres. */
export interface DayScore {
  readonly gmM: number;
  readonly truthM: number;
  readonly standardUncertaintyM: number;
  /** Inside its own 95 % interval. */
  readonly inside: boolean;
  /** Error over the half width of the interval: 1 is its end. */
  readonly errorInHalfWidths: number;
  readonly relativeError: number;
  readonly relativeUncertainty: number;
}

/** Throws when the day gave no GM. */
export function scoreOfDay({ session, result }: DayOutcome): DayScore {
  const truthM = session.simulation?.truth.gmFluidM;
  const gm = result.gmFluidM;
  if (truthM === undefined || gm === null)
    throw new Error(`no GM: ${JSON.stringify(result.refused)}`);
  const error = gm.value - truthM;
  return {
    gmM: gm.value,
    truthM,
    standardUncertaintyM: gm.standardUncertainty,
    inside: Math.abs(error) <= gm.halfWidth95,
    errorInHalfWidths: error / gm.halfWidth95,
    relativeError: error / truthM,
    relativeUncertainty: gm.standardUncertainty / gm.value,
  };
}
