import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { RecordCopies } from '#receiver/access/record-copy.ts';
import { type RunningServer, startServer } from '#receiver/server.ts';
import { hostileFrames, hostileRequests } from '#tests/support/hostile-requests.ts';

/** Requests at a commit; the trial asks for more, with seeds of its own. */
const REQUESTS = Number(process.env['HEELWRIGHT_HOSTILE_MESSAGES'] ?? '5000');
const SEED = Number(process.env['HEELWRIGHT_FIRST_SEED'] ?? '31');
const AT_ONCE = 20;
const PATIENCE_MS = 300;
const WITHIN_MS = 60_000 + REQUESTS * 10;
const SECRET = 'kept beside the screen, never served';
const STATUSES = new Set([
  100, 101, 200, 206, 304, 400, 401, 403, 404, 405, 408, 416, 417, 426, 431, 505,
]);

let folder = '';
let server: RunningServer;
let sockets = 0;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'hostile-http-'));
  const screenFolder = join(folder, 'screen');
  mkdirSync(join(screenFolder, 'assets'), { recursive: true });
  writeFileSync(join(screenFolder, 'index.html'), '<title>Heelwright</title>');
  writeFileSync(join(folder, 'secret.txt'), SECRET);
  const recordPath = join(folder, 'secret.txt');
  const copies = new RecordCopies({
    path: recordPath,
    savedBytes: () => SECRET.length,
    admit: () => {
      throw new Fault('access-unknown', 'token', 'it is none given here');
    },
  });
  server = await startServer({
    port: 0,
    lan: false,
    tls: null,
    version: '9.9.9',
    screenFolder,
    recordCopy: (request, response, way) => copies.serve(request, response, way),
    onSocket: (socket) => {
      sockets += 1;
      socket.on('message', () => {});
    },
  });
  console.log(`hostile requests: seed ${SEED}, ${REQUESTS}`);
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

/** All that came back for some bytes, until the other side ends, says no more, or has had enough. */
function answerTo(bytes: Buffer, after?: Buffer): Promise<string> {
  const patienceMs = after === undefined ? PATIENCE_MS : WITHIN_MS;
  return new Promise((resolve) => {
    const socket = connect(server.port, '127.0.0.1');
    let heard = '';
    const end = () => {
      clearTimeout(patience);
      socket.destroy();
      resolve(heard);
    };
    const patience = setTimeout(end, patienceMs);
    socket.on('data', (data: Buffer) => {
      heard += data.toString('latin1');
      if (after === undefined) end();
      else if (heard.includes('\r\n\r\n')) socket.end(after);
    });
    socket.on('error', end);
    socket.on('close', end);
    socket.on('end', end);
    socket.write(bytes);
  });
}

async function inTurn<T>(of: readonly T[], each: (one: T) => Promise<void>): Promise<void> {
  let next = 0;
  const lane = async () => {
    while (next < of.length) {
      const one = of[next]!;
      next += 1;
      await each(one);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, lane));
}

async function isUnharmed(): Promise<void> {
  const text = await (await fetch(`http://127.0.0.1:${server.port}/health`)).text();
  expect(JSON.parse(text)).toEqual({ program: 'heelwright', version: '9.9.9' });
}

describe('hostile requests', () => {
  it(
    'get one of the known statuses, open nothing and read nothing beside the screen',
    async () => {
      const statuses = new Map<number, number>();
      const host = `127.0.0.1:${server.port}`;
      await inTurn(hostileRequests(SEED, REQUESTS, host), async (bytes) => {
        const heard = await answerTo(bytes);
        expect(heard).not.toContain(SECRET);
        const status = Number(/^HTTP\/1\.1 (\d{3})/.exec(heard)?.[1] ?? Number.NaN);
        // Cut short, it is waited for: nothing is heard, and the time-outs end it.
        if (!Number.isNaN(status)) statuses.set(status, (statuses.get(status) ?? 0) + 1);
      });
      expect([...statuses.keys()].filter((status) => !STATUSES.has(status))).toEqual([]);
      expect(statuses.get(200)).toBeGreaterThan(0);
      expect(statuses.get(401)).toBeGreaterThan(0);
      expect(statuses.get(403)).toBeGreaterThan(0);
      expect(statuses.get(405)).toBeGreaterThan(0);
      await isUnharmed();
    },
    WITHIN_MS,
  );

  it(
    'of frames that are none end their own connection and nothing else',
    async () => {
      const handshake = Buffer.from(
        `GET /screen HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nUpgrade: websocket\r\n` +
          'Connection: Upgrade\r\nSec-WebSocket-Version: 13\r\n' +
          'Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n',
      );
      const before = sockets;
      const frames = hostileFrames(SEED + 1, Math.ceil(REQUESTS / 5));
      await inTurn(frames, async (frame) => {
        expect(await answerTo(handshake, frame)).toMatch(/^HTTP\/1\.1 101/);
      });
      expect(sockets - before).toBe(frames.length);
      await isUnharmed();
    },
    WITHIN_MS,
  );
});
