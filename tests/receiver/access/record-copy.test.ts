import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { AdmittedBy } from '#receiver/access/doorkeeper.ts';
import { RecordCopies } from '#receiver/access/record-copy.ts';

const BYTES = 40 * 1024 * 1024;
const STALLED_AFTER_S = 1;
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
    stalledAfterS: STALLED_AFTER_S,
    admit: (text) => {
      const { token } = JSON.parse(text) as { token: string };
      if (token === 'nobody') throw new Fault('access-unknown', 'token', 'it is none given here');
      const role = token === 'boards' ? 'device' : 'witness';
      return { admitted: { role }, tokenSha256: token } as unknown as AdmittedBy;
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

/** Asks for the copy and then reads nothing more; `ended` with the bytes it had when it was given up. */
async function stalledReader(token: string): Promise<{ ended: Promise<number> }> {
  const socket = connect(Number(new URL(url).port), '127.0.0.1');
  socket.on('error', () => {});
  const ended = new Promise<number>((resolve) =>
    socket.on('close', () => resolve(socket.bytesRead)),
  );
  socket.write(`GET /record HTTP/1.1\r\nHost: x\r\nAuthorization: Bearer ${token}\r\n\r\n`);
  await new Promise<void>((resolve) => socket.once('readable', () => resolve()));
  setTimeout(() => socket.resume(), 4 * STALLED_AFTER_S * 1000);
  return { ended };
}

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

  it('is kept from nobody by people who begin one and take no byte of it', async () => {
    const stalled = await Promise.all(
      ['a', 'b', 'c', 'd', 'e', 'f', 'f'].map((token) => stalledReader(token)),
    );
    const honest = await ask('Bearer witnesses');
    expect(honest.status).toBe(200);
    expect((await honest.arrayBuffer()).byteLength).toBe(BYTES);
    // The rest are ended for taking nothing.
    const taken = await Promise.all(stalled.map(({ ended }) => ended));
    expect(Math.max(...taken)).toBeLessThan(BYTES);
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
