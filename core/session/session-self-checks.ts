import { type SelfCheck, selfChecks } from '../calibration/self-check.ts';
import { firstAgain } from './first-again.ts';
import type { SessionState } from './session.ts';

/**
 * Each sensor against itself: does it come back to what it showed first when the weights do (the
 * last reading of the first arrangement against the first reading), and is its noise that of its
 * certificate. `noiseDegOf`: what an instrument's samples scatter by now, where that is known.
 */
export function sessionSelfChecks(
  session: Pick<SessionState, 'states' | 'mountings' | 'certificates'>,
  noiseDegOf: (instrument: string) => number | null = () => null,
): SelfCheck[] {
  const before = session.states[0]?.reading?.instruments ?? [];
  const after = firstAgain(session)?.reading?.instruments ?? [];
  return selfChecks(
    session.mountings.map(({ instrument }) => {
      const [morning, evening] = [before, after].map((read) =>
        read.find((one) => one.instrument === instrument),
      );
      return {
        instrument,
        beforeDeg: morning?.heelDeg ?? null,
        beforeErrorDeg: morning?.standardErrorDeg ?? null,
        afterDeg: evening?.heelDeg ?? null,
        afterErrorDeg: evening?.standardErrorDeg ?? null,
        noiseDeg: noiseDegOf(instrument),
        certificateNoiseDeg: certifiedNoiseDeg(session, instrument),
      };
    }),
  );
}

/** A tube's certificate states its noise in millimetres of level. */
function certifiedNoiseDeg(
  { mountings, certificates }: Pick<SessionState, 'mountings' | 'certificates'>,
  instrument: string,
): number | null {
  const mounting = mountings.find((one) => one.instrument === instrument);
  const certificate = certificates.find((one) => one.instrument === instrument);
  return mounting?.kind === 'inclinometer' ? (certificate?.noise ?? null) : null;
}
