import { Fault } from '../fault/fault.ts';
import type { Line } from '../record/line.ts';
import type { Certificate } from '../sample/certificate.ts';
import type { SessionState } from './session.ts';
import { writtenOf } from './written.ts';

/** Another certificate in force; the earlier one stays for the readings that were made under it. */
export function foldCertificateReplaced(
  session: SessionState,
  line: Extract<Line, { kind: 'certificate-replaced' }>,
): SessionState {
  const { certificate, reason } = line.body;
  const refusal = replacementRefusal(session, certificate);
  if (refusal !== null)
    throw new Fault('record-line', `line ${line.n} (${line.kind})`, refusal.report.found);
  const earlier = session.certificates.find((one) => one.instrument === certificate.instrument);
  return {
    ...session,
    certificates: latestOf(session.certificates, certificate),
    replacedCertificates: [
      ...session.replacedCertificates,
      { certificate: earlier!, written: writtenOf(line), reason },
    ],
  };
}

/** Why a certificate cannot take the place of the one in force; null: it can. A number is never used twice. */
export function replacementRefusal(
  session: Pick<SessionState, 'certificates' | 'replacedCertificates' | 'remounted'>,
  certificate: Certificate,
): Fault | null {
  const isOf = (one: { instrument: string }) => one.instrument === certificate.instrument;
  const earlier = session.certificates.find(isOf);
  const where = certificate.instrument;
  if (earlier === undefined)
    return new Fault('certificate-unfit', where, `${where} has no certificate yet`);
  const before = [...session.replacedCertificates, ...session.remounted].flatMap(
    (one) => one.certificate ?? [],
  );
  if ([earlier, ...before.filter(isOf)].some(({ number }) => number === certificate.number))
    return new Fault(
      'certificate-unfit',
      where,
      `certificate ${certificate.number} was in force before`,
    );
  return null;
}

/** One entry an instrument, the newest in the place of the one before. */
export function latestOf<T extends { readonly instrument: string }>(
  entries: readonly T[],
  newest: T,
): readonly T[] {
  const at = entries.findIndex((entry) => entry.instrument === newest.instrument);
  return at < 0 ? [...entries, newest] : entries.with(at, newest);
}
