import { legPart } from '../part/leg-parts.ts';
import type { Reading } from '../record/reading-line.ts';
import type { Certificate, Mounting } from '../sample/certificate.ts';
import {
  heelDegFromFootDifference,
  heelDegFromLevelDifference,
  heelDegFromSine,
  indicationOfHeel,
} from '../sample/indicated-heel.ts';
import type { SessionState } from './session.ts';

type ReadInstrument = Reading['instruments'][number];

/**
 * Heel an instrument's reading stands for under its certificate in force now, degrees: as written
 * where that is the one it was read under, otherwise taken back to the indication and corrected
 * anew. Of the mean heel, not of each sample: the two corrections are nearly straight lines of
 * slope one, so that rolling moves their difference only in the second order (roll of half a
 * degree, scales 1 % and zeros 0.1 degree apart: 3e-6 degree). Null beyond the vertical. Of a sensor
 * that was remounted since line `line`, the certificate in force until then. A reading under a
 * certificate this record does not hold stays as it was written.
 */
export function heelByCertificate(
  session: SessionState,
  read: ReadInstrument,
  line: number,
): number | null {
  const inForce = certificateAt(session, read.instrument, line);
  if (inForce === undefined || inForce.number === read.certificate) return read.heelDeg;
  const mounting = session.mountings.find((one) => one.instrument === read.instrument);
  const earlier = session.replacedCertificates.find(
    ({ certificate }) =>
      certificate.instrument === read.instrument && certificate.number === read.certificate,
  );
  if (mounting === undefined || earlier === undefined) return read.heelDeg;
  const senses = sensesOf(session, read.instrument);
  return corrected(read.heelDeg, { mounting, senses }, earlier.certificate, inForce);
}

/** Whether the legs of a water tube are read along them or at their feet, by the part that read them. */
export function sensesOf(
  session: Pick<SessionState, 'streams'>,
  instrument: string,
): 'level' | 'pressure' {
  const part = session.streams
    .flatMap(({ parts }) => parts)
    .findLast((one) => one.instrument === instrument)?.part;
  return (part === undefined ? undefined : legPart(part)?.senses) ?? 'level';
}

/** The certificate that a reading written on a line is corrected by now; undefined: none. */
export function certificateAt(
  session: Pick<SessionState, 'certificates' | 'remounted'>,
  instrument: string,
  line: number,
): Certificate | undefined {
  const ended = session.remounted.find(
    (one) => one.instrument === instrument && one.written.line > line,
  );
  if (ended !== undefined) return ended.certificate ?? undefined;
  return session.certificates.find((one) => one.instrument === instrument);
}

function corrected(
  heelDeg: number,
  { mounting, senses }: { mounting: Mounting; senses: 'level' | 'pressure' },
  earlier: Certificate,
  inForce: Certificate,
): number | null {
  const of = { mounting, certificate: inForce };
  if (mounting.kind === 'water-tube' && mounting.spanM === null) return heelDeg;
  const indicated = indicationOfHeel(heelDeg, { mounting, certificate: earlier }, senses);
  if (mounting.kind === 'inclinometer') return heelDegFromSine(indicated, of);
  return senses === 'pressure'
    ? heelDegFromFootDifference(indicated, of)
    : heelDegFromLevelDifference(indicated, of);
}
