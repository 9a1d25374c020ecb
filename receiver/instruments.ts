import { certificateRefusal } from '#core/sample/certificate-refusal.ts';
import { foundAs } from '#core/session/found-as.ts';
import type { SessionState } from '#core/session/session.ts';
import type { WatchedInstrument } from '#core/steadiness/watch-types.ts';

/** Why an instrument is shown but not used for GM; null when it is used. */
export function instrumentRefusal(session: SessionState, instrument: string): string | null {
  return certificateRefusal(
    session.certificates.find((one) => one.instrument === instrument),
    foundAs(session, instrument),
  );
}

export function watchedInstruments(session: SessionState): WatchedInstrument[] {
  return session.mountings.map(({ instrument, label, settlingS }) => ({
    instrument,
    label,
    settlingS,
    refused: instrumentRefusal(session, instrument),
  }));
}
