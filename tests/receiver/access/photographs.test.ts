import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { PhotographPlaces, servePhotograph } from '#receiver/access/photographs.ts';
import { RecordLines } from '../../support/record-lines.ts';
import { SMALL_JPEG } from '../../support/small-jpeg.ts';

const folder = mkdtempSync(join(tmpdir(), 'photographs-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

class Answer {
  statusCode = 200;
  readonly headers: Record<string, unknown> = {};
  body: Buffer | undefined;
  setHeader(name: string, value: unknown): void {
    this.headers[name] = value;
  }
  end(body?: Buffer): void {
    this.body = body;
  }
}

const WAY = { address: '127.0.0.1', loopback: true, secure: false };

function record() {
  const lines = new RecordLines();
  lines.add('remark', { text: 'before, naïve', line: null });
  const line = lines.add('photograph', { of: null, caption: 'ü', jpeg: SMALL_JPEG });
  lines.add('remark', { text: 'after', line: null });
  const path = join(folder, 'r.hwr');
  writeFileSync(path, lines.bytes);
  const places = new PhotographPlaces();
  lines.lines.forEach((bytes, n) => {
    const { kind } = JSON.parse(Buffer.from(bytes).toString('utf8')) as { kind: string };
    places.follow({ n, kind }, bytes.length);
  });
  const whole = lines.bytes.length;
  return { path, places, line, whole };
}

async function asked(line: string, more: { savedBytes?: number; stranger?: boolean } = {}) {
  const { path, places, whole } = record();
  const answer = new Answer();
  const admit = () => {
    if (more.stranger) throw new Fault('access-unknown', 'x', 'y');
    return { admitted: { role: 'witness' }, tokenSha256: '00' } as never;
  };
  await servePhotograph(
    { admit, path, places, savedBytes: () => more.savedBytes ?? whole },
    { method: 'GET', headers: { authorization: 'Bearer abc' } } as IncomingMessage,
    answer as unknown as ServerResponse,
    WAY,
    line,
  );
  return answer;
}

test('a photograph comes back as the very bytes that were sent, as nothing but a picture', async () => {
  const answer = await asked(String(record().line));
  expect(answer.headers['Content-Type']).toBe('image/jpeg');
  expect(answer.body?.toString('base64')).toBe(SMALL_JPEG);
});

test('to nobody unknown, of no other line, and not before it is on disk', async () => {
  const { line } = record();
  expect((await asked(String(line), { stranger: true })).statusCode).toBe(401);
  expect((await asked('0')).statusCode).toBe(404);
  expect((await asked('../1')).statusCode).toBe(404);
  expect((await asked(String(line), { savedBytes: 10 })).statusCode).toBe(404);
});
