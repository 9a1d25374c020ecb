import type { SelfCheck } from '#core/calibration/self-check.ts';
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

const TROUBLES: Readonly<Record<SelfCheck['troubles'][number], string>> = {
  noisier: 'noisier than its certificate: look for vibration, a loose base, a bad supply',
  'too-quiet': 'far quieter than its certificate: it may be stuck; tap its base',
  'zero-not-returned': 'its zero has not come back: it was moved, or warmed; put it down anew',
};

/** The self-check of the day so far. `noiseDegOf`: what an instrument's samples scatter by now. */
export function checkedSensors(
  session: SessionState,
  noiseDegOf: (instrument: string) => number | null,
): CheckedSensor[] {
  const agreement = resultAgreement(session).instruments;
  return sessionSelfChecks(session, noiseDegOf).map(
    ({ instrument, noiseRatio, zeroReturnDeg, troubles }) => ({
      ...{ instrument, noiseRatio, zeroReturnDeg },
      label: session.mountings.find((one) => one.instrument === instrument)?.label ?? instrument,
      offsetDeg: agreement.find((one) => one.instrument === instrument)?.offsetDeg ?? null,
      troubles: troubles.map((one) => TROUBLES[one]),
    }),
  );
}
