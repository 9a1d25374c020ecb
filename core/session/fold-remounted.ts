import { Fault } from '../fault/fault.ts';
import type { Line } from '../record/line.ts';
import type { Certificate } from '../sample/certificate.ts';
import { latestOf, replacementRefusal } from './fold-certificate.ts';
import type { SessionState } from './session.ts';
import { writtenOf } from './written.ts';

/**
 * A sensor was put down anew, or another in its place: what it shows from here on has a zero of
 * its own. Readings before keep the certificate that was in force then.
 */
export function foldRemounted(
  session: SessionState,
  line: Extract<Line, { kind: 'instrument-remounted' }>,
): SessionState {
  const { instrument, certificate, reason } = line.body;
  const refusal = remountingRefusal(session, instrument, certificate);
  if (refusal !== null)
    throw new Fault('record-line', `line ${line.n} (${line.kind})`, refusal.report.found);
  const before = session.certificates.find((one) => one.instrument === instrument) ?? null;
  return {
    ...session,
    certificates:
      certificate === null ? session.certificates : latestOf(session.certificates, certificate),
    remounted: [
      ...session.remounted,
      { instrument, certificate: before, written: writtenOf(line), reason },
    ],
  };
}

/** Why an instrument cannot be remounted so; null: it can. A certificate's number is never used twice. */
export function remountingRefusal(
  session: Pick<SessionState, 'mountings' | 'certificates' | 'replacedCertificates' | 'remounted'>,
  instrument: string,
  certificate: Certificate | null,
): Fault | null {
  if (!session.mountings.some((one) => one.instrument === instrument))
    return new Fault('instrument-unknown', instrument, 'not mounted in this record');
  if (certificate === null) return null;
  if (certificate.instrument !== instrument)
    return new Fault(
      'certificate-unfit',
      instrument,
      `certificate ${certificate.number} is of ${certificate.instrument}`,
    );
  const inForce = session.certificates.find((one) => one.instrument === instrument);
  return inForce === undefined ? null : replacementRefusal(session, certificate);
}
