import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { type RunningServer, startServer } from '#receiver/server.ts';

let folder = '';
let server: RunningServer;
const opened: string[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'server-'));
  mkdirSync(join(folder, 'screen'));
  writeFileSync(join(folder, 'screen', 'index.html'), '<title>Heelwright</title>');
  writeFileSync(join(folder, 'secret.txt'), 'secret');
  server = await startServer({
    port: 0,
    version: '9.9.9',
    screenFolder: join(folder, 'screen'),
    lan: false,
    tls: null,
    onSocket: (_socket, _wire, way, door) => {
      expect(way).toMatchObject({ loopback: true, secure: false });
      opened.push(door);
    },
  });
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true });
});

interface Answer {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly text: string;
}

function ask(path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request(
      { host: '127.0.0.1', port: server.port, path, method, headers },
      (response) => {
        let text = '';
        response.on('data', (bytes: Buffer) => {
          text += bytes.toString('utf8');
        });
        response.on('end', () =>
          resolve({ status: response.statusCode ?? 0, headers: response.headers, text }),
        );
      },
    );
    asked.on('error', reject);
    asked.end();
  });
}

/** The status an upgrade ends with; 101 when the socket opens. */
function upgrade(path: string, headers: Record<string, string>): Promise<number> {
  return new Promise((resolve) => {
    const socket = new WebSocket(`ws://127.0.0.1:${server.port}${path}`, { headers });
    socket.on('open', () => {
      socket.terminate();
      resolve(101);
    });
    socket.on('unexpected-response', (_request, response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    });
    socket.on('error', () => {});
  });
}

describe('the server', () => {
  it('says which program it is and its version', async () => {
    const { status, text } = await ask('/health');
    expect(status).toBe(200);
    expect(JSON.parse(text)).toEqual({ program: 'heelwright', version: '9.9.9' });
  });

  it('serves the screen with a policy that runs no inline script', async () => {
    const { status, text, headers } = await ask('/');
    expect([status, text]).toEqual([200, '<title>Heelwright</title>']);
    const policy = String(headers['content-security-policy']);
    expect(policy).toContain("default-src 'none'");
    expect(/script-src ([^;]*)/.exec(policy)?.[1]).toBe("'self'");
    expect(headers['x-content-type-options']).toBe('nosniff');
  });

  it('serves nothing outside its folder, and takes nothing in', async () => {
    for (const path of ['/../secret.txt', '/%2e%2e/secret.txt', '/..%2fsecret.txt', '/none'])
      expect([path, (await ask(path)).status]).toEqual([path, 404]);
    expect((await ask('/', {}, 'POST')).status).toBe(405);
  });

  it('answers only to its own address, against rebound names', async () => {
    expect((await ask('/health', { host: 'evil.example' })).status).toBe(403);
    expect((await ask('/health', { host: `localhost:${server.port}` })).status).toBe(200);
    expect(await upgrade('/screen', { host: 'evil.example' })).toBe(403);
  });

  it("lets its own pages in, other people's pages not, and no page as a device", async () => {
    const own = `http://127.0.0.1:${server.port}`;
    expect(await upgrade('/screen', { origin: own })).toBe(101);
    expect(await upgrade('/screen', { origin: 'http://evil.example' })).toBe(403);
    expect(await upgrade('/screen', { origin: 'null' })).toBe(403);
    expect(await upgrade('/device', { origin: own })).toBe(403);
    expect(await upgrade('/device', {})).toBe(101);
    expect(await upgrade('/other', {})).toBe(404);
    expect(opened).toEqual(['screen', 'device']);
  });
});
