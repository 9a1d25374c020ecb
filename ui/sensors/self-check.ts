import {
  LEAST_NOISE_RATIO,
  MOST_NOISE_RATIO,
  MOST_ZERO_RETURN_DEG,
} from '#core/calibration/self-check.ts';
import { resultAgreement } from '#core/session/result-agreement.ts';
import type { SessionState } from '#core/session/session.ts';
import { sessionSelfChecks } from '#core/session/session-self-checks.ts';

/** One sensor against its certificate, the others and itself in the morning; null: not told yet. */
export interface CheckedSensor {
  readonly instrument: string;
  readonly label: string;
  /** Noise now over that of its certificate. */
  readonly noiseRatio: number | null;
  /** Offset against the mean of the others over the states read, degrees. */
  readonly offsetDeg: number | null;
  readonly zeroReturnDeg: number | null;
  readonly troubles: readonly string[];
}

/** The self-check of the day so far. `noiseDegOf`: what an instrument's samples scatter by now. */
export function checkedSensors(
  session: SessionState,
  noiseDegOf: (instrument: string) => number | null,
): CheckedSensor[] {
  const agreement = resultAgreement(session).instruments;
  const returns = sessionSelfChecks(session);
  return session.mountings.map(({ instrument, label, kind }) => {
    const certificate = session.certificates.find((one) => one.instrument === instrument);
    const noise = noiseDegOf(instrument);
    // A tube's certificate states millimetres of level.
    const certified = kind === 'inclinometer' ? certificate?.noise : undefined;
    const noiseRatio = noise === null || certified === undefined ? null : noise / certified;
    const offsetDeg = agreement.find((one) => one.label === label)?.offsetDeg ?? null;
    const zeroReturnDeg =
      returns.find((one) => one.instrument === instrument)?.zeroReturnDeg ?? null;
    return {
      ...{ instrument, label, noiseRatio, offsetDeg, zeroReturnDeg },
      troubles: troublesOf(noiseRatio, zeroReturnDeg),
    };
  });
}

function troublesOf(noiseRatio: number | null, zeroReturnDeg: number | null): string[] {
  const troubles: string[] = [];
  if (noiseRatio !== null && noiseRatio > MOST_NOISE_RATIO)
    troubles.push('noisier than its certificate: look for vibration, a loose base, a bad supply');
  if (noiseRatio !== null && noiseRatio < LEAST_NOISE_RATIO)
    troubles.push('far quieter than its certificate: it may be stuck; tap its base');
  if (zeroReturnDeg !== null && Math.abs(zeroReturnDeg) > MOST_ZERO_RETURN_DEG)
    troubles.push('its zero has not come back: it was moved, or warmed; put it down anew');
  return troubles;
}
