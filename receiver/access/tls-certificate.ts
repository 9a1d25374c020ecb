import { createHash, X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { generate } from 'selfsigned';
import { z } from 'zod';
import { Fault } from '#core/fault/fault.ts';
import { writeOwnFile } from './own-file.ts';

/** Long enough for a vessel's life between tests; a device pins the key, not the date. */
const VALID_DAYS = 3650;
const RENEW_BEFORE_DAYS = 30;
const DAY_MS = 24 * 3600 * 1000;

const kept = z.strictObject({
  privateKey: z.string(),
  publicKey: z.string(),
  certificate: z.string(),
});

export interface TlsCertificate {
  readonly privateKey: string;
  readonly certificate: string;
  /** SHA-256 of the certificate, as browsers show it: pairs of hex digits and colons. */
  readonly fingerprint: string;
  /** SHA-256 of its public key, hex: what a device pins. It stays when an address comes or goes. */
  readonly keyFingerprint: string;
}

/**
 * The receiver's own certificate (elliptic curve P-256), made at first use and kept across
 * restarts; made anew with the same key when an address is not in it, or it is about to end.
 */
export async function tlsCertificate(
  folder: string,
  addresses: readonly string[],
  nowMs: number,
): Promise<TlsCertificate> {
  const file = join(folder, 'tls.json');
  const before = readKept(file);
  if (before !== null && serves(before.certificate, addresses, nowMs)) return described(before);
  const names = ['127.0.0.1', '::1', ...addresses];
  const made = await generate([{ name: 'commonName', value: 'Heelwright receiver' }], {
    keyType: 'ec',
    curve: 'P-256',
    algorithm: 'sha256',
    notBeforeDate: new Date(nowMs - DAY_MS),
    notAfterDate: new Date(nowMs + VALID_DAYS * DAY_MS),
    ...(before === null
      ? {}
      : { keyPair: { privateKey: before.privateKey, publicKey: before.publicKey } }),
    extensions: [
      { name: 'basicConstraints', cA: false },
      { name: 'keyUsage', digitalSignature: true },
      { name: 'extKeyUsage', serverAuth: true },
      {
        name: 'subjectAltName',
        altNames: [
          { type: 2, value: 'localhost' },
          { type: 2, value: hostname().toLowerCase() },
          ...names.map((ip) => ({ type: 7 as const, ip })),
        ],
      },
    ],
  });
  const now = { privateKey: made.private, publicKey: made.public, certificate: made.cert };
  writeOwnFile(file, `${JSON.stringify(now)}\n`);
  return described(now);
}

function serves(certificate: string, addresses: readonly string[], nowMs: number): boolean {
  const x509 = new X509Certificate(certificate);
  return (
    Date.parse(x509.validTo) - nowMs > RENEW_BEFORE_DAYS * DAY_MS &&
    addresses.every((address) => x509.checkIP(address) !== undefined)
  );
}

function described({ privateKey, certificate }: z.infer<typeof kept>): TlsCertificate {
  return {
    privateKey,
    certificate,
    fingerprint: new X509Certificate(certificate).fingerprint256,
    keyFingerprint: keyFingerprintOf(new X509Certificate(certificate)),
  };
}

/** SHA-256, hex, of a certificate's SubjectPublicKeyInfo (RFC 5280 4.1.2.7). */
export function keyFingerprintOf(certificate: X509Certificate): string {
  const spki = certificate.publicKey.export({ type: 'spki', format: 'der' });
  return createHash('sha256').update(spki).digest('hex');
}

function readKept(file: string): z.infer<typeof kept> | null {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw new Fault('file-not-readable', file, (error as Error).message);
  }
  try {
    return kept.parse(JSON.parse(text));
  } catch (error) {
    throw new Fault('input-shape', file, (error as Error).message.slice(0, 200));
  }
}
