import type { Fault } from '#core/fault/fault.ts';
import { type Certificate, certificate } from '#core/sample/certificate.ts';

export type CertificateRead =
  | { readonly certificate: Certificate; readonly whyNot: null }
  | { readonly certificate: null; readonly whyNot: string };

const MOST_LETTERS = 48 * 1024;

/** The text of a new certificate for this instrument, or why it cannot be one; `refusalOf` says what the record has against it. */
export function certificateFromText(
  text: string,
  instrument: string,
  refusalOf: (certificate: Certificate) => Fault | null,
): CertificateRead {
  const refused = (whyNot: string) => ({ certificate: null, whyNot });
  if (text.length > MOST_LETTERS) return refused(`It is longer than ${MOST_LETTERS} letters.`);
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return refused('This is no JSON: a bracket or quote is missing, or it is another file.');
  }
  const checked = certificate.safeParse(json);
  if (!checked.success) {
    const [issue] = checked.error.issues;
    return refused(`${issue?.path.map(String).join('.') || 'the whole'}: ${issue?.message}.`);
  }
  if (checked.data.instrument !== instrument)
    return refused(`It is of ${checked.data.instrument}, not of ${instrument}.`);
  const refusal = refusalOf(checked.data);
  return refusal === null
    ? { certificate: checked.data, whyNot: null }
    : refused(`${refusal.report.found}.`);
}
