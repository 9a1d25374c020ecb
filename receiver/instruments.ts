import type { SessionState } from '#core/session/session.ts';
import type { WatchedInstrument } from '#core/steadiness/watch-types.ts';

/** A certificate whose scale is less certain than this proves nothing a GM could rest on (our setting). */
const MOST_SCALE_UNCERTAINTY = 0.01;

/** Why an instrument is shown but not used for GM; null when it is used. */
export function instrumentRefusal(session: SessionState, instrument: string): string | null {
  const certificate = session.certificates.find((one) => one.instrument === instrument);
  if (certificate === undefined) return 'no calibration certificate';
  if (certificate.scaleUncertainty > MOST_SCALE_UNCERTAINTY)
    return `scale uncertain by ${certificate.scaleUncertainty} of its value`;
  return null;
}

export function watchedInstruments(session: SessionState): WatchedInstrument[] {
  return session.mountings.map(({ instrument, label, settlingS }) => ({
    instrument,
    label,
    settlingS,
    refused: instrumentRefusal(session, instrument),
  }));
}
