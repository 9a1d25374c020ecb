import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import type { AdmittedBy } from '#receiver/access/doorkeeper.ts';
import { RecordDocuments } from '#receiver/access/record-documents.ts';

let server: Server;
let url = '';
let savedBytes = 100;
let made: string[] = [];
let finish: (outcome: Uint8Array | Error) => void = () => {};

beforeEach(async () => {
  made = [];
  savedBytes = 100;
  const documents = new RecordDocuments({
    path: '/somewhere/a "day".hwr',
    savedBytes: () => savedBytes,
    make: (_path, name, endBytes) => {
      made.push(`${name} ${endBytes}`);
      return new Promise((resolve, reject) => {
        finish = (outcome) => (outcome instanceof Error ? reject(outcome) : resolve(outcome));
      });
    },
    admit: (text) => {
      const { token } = JSON.parse(text) as { token: string };
      if (token === 'nobody') throw new Fault('access-unknown', 'token', 'it is none given here');
      const role = token === 'boards' ? 'device' : 'witness';
      return { admitted: { role }, tokenSha256: token } as unknown as AdmittedBy;
    },
  });
  const way = { address: '10.0.0.2', loopback: false, secure: false };
  server = createServer((request, response) =>
    documents.serve(request, response, way, (request.url ?? '').slice('/document/'.length)),
  );
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/document/`;
});
afterEach(async () => {
  server.closeAllConnections();
  await new Promise((resolve) => server.close(resolve));
});

const ask = (name: string, token: string | null = 'witness', method = 'GET') =>
  fetch(url + name, {
    method,
    headers: token === null ? {} : { authorization: `Bearer ${token}` },
  });
/** Until the request has reached the making. */
async function untilMade(count: number): Promise<void> {
  for (let tries = 0; made.length < count && tries < 200; tries++)
    await new Promise((resolve) => setTimeout(resolve, 5));
}

describe('a document of the record', () => {
  it('is an attachment under a plain name, made once for all who ask while nothing is added', async () => {
    const answers = [ask('report.pdf'), ask('report.pdf', 'other')];
    await untilMade(1);
    finish(Buffer.from('%PDF'));
    const [first, second] = await Promise.all(answers);
    expect(first!.headers.get('content-disposition')).toBe(
      'attachment; filename="a__day_-report.pdf"',
    );
    expect(first!.headers.get('content-type')).toBe('application/pdf');
    expect([await first!.text(), await second!.text()]).toEqual(['%PDF', '%PDF']);
    expect(await (await ask('report.pdf')).text()).toBe('%PDF');
    expect(made).toEqual(['report 100']);
    savedBytes = 200;
    const third = ask('report.pdf');
    await untilMade(2);
    finish(Buffer.from('%PDF 2'));
    expect(await (await third).text()).toBe('%PDF 2');
    expect(made).toEqual(['report 100', 'report 200']);
  });

  it('is kept from boards and strangers, and none is made for them', async () => {
    for (const token of [null, 'nobody', 'boards', 'two words'])
      expect((await ask('report.pdf', token)).status, String(token)).toBe(401);
    expect((await ask('../record', 'witness')).status).toBe(404);
    expect((await ask('report.pdf', 'witness', 'HEAD')).status).toBe(200);
    expect(made).toEqual([]);
  });

  it('says why it could not be made, and is made anew the next time', async () => {
    const failed = ask('report.pdf');
    await untilMade(1);
    finish(new Fault('text-not-printable', 'remark', 'letters'));
    const answer = await failed;
    expect(answer.status).toBe(500);
    expect(await answer.json()).toMatchObject({ code: 'text-not-printable' });
    const again = ask('report.pdf');
    await untilMade(2);
    finish(new Error('out of memory'));
    expect(await (await again).json()).toMatchObject({ code: 'report-not-made' });
  });
});
