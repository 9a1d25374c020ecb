import { X509Certificate } from 'node:crypto';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { tlsCertificate } from '#receiver/access/tls-certificate.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tls-'));
});
afterEach(() => rmSync(folder, { recursive: true }));
const NOW_MS = Date.parse('2026-11-25T08:00:00Z');
const DAY_MS = 24 * 3600 * 1000;

it('the certificate names all addresses and is kept; a new address gets a new one of the same key', async () => {
  const first = await tlsCertificate(folder, ['192.168.7.20'], NOW_MS);
  const x509 = new X509Certificate(first.certificate);
  for (const address of ['127.0.0.1', '192.168.7.20']) expect(x509.checkIP(address)).toBe(address);
  expect(x509.checkHost('localhost')).toBe('localhost');
  expect(x509.publicKey.asymmetricKeyDetails).toEqual({ namedCurve: 'prime256v1' });
  expect(x509.ca).toBe(false);
  expect(first.fingerprint).toBe(x509.fingerprint256);
  if (process.platform !== 'win32')
    expect(statSync(join(folder, 'tls.json')).mode & 0o777).toBe(0o600);

  expect(await tlsCertificate(folder, ['192.168.7.20'], NOW_MS + DAY_MS)).toEqual(first);
  const moved = await tlsCertificate(folder, ['192.168.7.20', '10.0.0.4'], NOW_MS + DAY_MS);
  expect(moved.fingerprint).not.toBe(first.fingerprint);
  expect(moved.keyFingerprint).toBe(first.keyFingerprint);
  expect(new X509Certificate(moved.certificate).checkIP('10.0.0.4')).toBe('10.0.0.4');
});

it('a certificate that is about to end is made anew', async () => {
  const first = await tlsCertificate(folder, [], NOW_MS);
  const late = await tlsCertificate(folder, [], NOW_MS + 3640 * DAY_MS);
  expect(late.fingerprint).not.toBe(first.fingerprint);
  expect(late.keyFingerprint).toBe(first.keyFingerprint);
});
