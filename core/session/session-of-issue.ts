import type { SessionState } from './session.ts';

/**
 * The session as it would stand under the certificates of an earlier issue of its result: 1 is
 * under those first given, each replacement makes the next. RangeError for an issue there is not.
 */
export function sessionOfIssue(session: SessionState, issue: number): SessionState {
  const { replacedCertificates } = session;
  if (!Number.isInteger(issue) || issue < 1 || issue > replacedCertificates.length + 1)
    throw new RangeError(`there is no issue ${issue}`);
  const putBack = replacedCertificates.slice(issue - 1).reverse();
  let certificates = session.certificates;
  for (const { certificate } of putBack)
    certificates = certificates.map((one) =>
      one.instrument === certificate.instrument ? certificate : one,
    );
  return {
    ...session,
    certificates,
    replacedCertificates: replacedCertificates.slice(0, issue - 1),
  };
}
