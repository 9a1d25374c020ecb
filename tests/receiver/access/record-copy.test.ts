import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { AdmittedBy } from '#receiver/access/doorkeeper.ts';
import { RecordCopies } from '#receiver/access/record-copy.ts';

const ROLES = { witnesses: 'witness', boards: 'device' } as const;
const BYTES = 5000;
let folder: string;
let server: Server;
let url = '';

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'copy-'));
  const path = join(folder, 'a "day".hwr');
  writeFileSync(path, Buffer.alloc(BYTES + 700, 'x'));
  const copies = new RecordCopies({
    path,
    savedBytes: () => BYTES,
    admit: (text) => {
      const { token } = JSON.parse(text) as { token: keyof typeof ROLES };
      const role = ROLES[token];
      if (role === undefined) throw new Fault('access-unknown', 'token', 'it is none given here');
      return { admitted: { role } } as unknown as AdmittedBy;
    },
  });
  const way = { address: '10.0.0.2', loopback: false, secure: false };
  server = createServer((request, response) => copies.serve(request, response, way));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/record`;
});
afterEach(async () => {
  await new Promise((resolve) => server.close(resolve));
  rmSync(folder, { recursive: true });
});

const ask = (authorization?: string, method = 'GET') =>
  fetch(url, { method, headers: authorization === undefined ? {} : { authorization } });

describe('a copy of the record', () => {
  it('is what is on disk for good, as an attachment under a plain name', async () => {
    const answer = await ask('Bearer witnesses');
    expect(answer.status).toBe(200);
    const copy = Buffer.from(await answer.arrayBuffer());
    expect(copy.equals(readFileSync(join(folder, 'a "day".hwr')).subarray(0, BYTES))).toBe(true);
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="a__day_.hwr"');
    expect(answer.headers.get('cache-control')).toBe('no-store');
    const head = await ask('Bearer witnesses', 'HEAD');
    expect(head.headers.get('content-length')).toBe(String(BYTES));
  });

  it('is refused with a code without a token, with a wrong one, and to a board side', async () => {
    for (const [authorization, code] of [
      [undefined, 'access-not-said'],
      ['Basic witnesses', 'access-not-said'],
      ['Bearer  witnesses', 'access-not-said'],
      ['Bearer nobody', 'access-unknown'],
      ['Bearer boards', 'act-not-yours'],
    ] as const) {
      const answer = await ask(authorization);
      expect([authorization, answer.status]).toEqual([authorization, 401]);
      expect(await answer.json()).toMatchObject({ code });
    }
  });
});
