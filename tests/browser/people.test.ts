import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type Program, startProgram } from '../support/programs.ts';
import { type ReceiverStarted, receiverStarted } from '../support/receiver-access.ts';
import { complaintsOf, startBrowser } from './chromium.ts';

let browser: Browser;
let program: Program;
let started: ReceiverStarted;
let foreign: Server;
let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'heelwright-people-'));
  program = startProgram('receiver', [
    ...['demo', '--pace', '20', '--seed', '12', '--port', '0', '--data', folder],
  ]);
  started = await receiverStarted(program);
  browser = await startBrowser();
  foreign = createServer((_request, response) => {
    response.setHeader('Content-Type', 'text/html');
    response.end('<title>Another page</title>');
  });
  await new Promise<void>((resolve) => foreign.listen(0, '127.0.0.1', resolve));
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await program?.stop();
  await new Promise((resolve) => foreign.close(resolve));
  rmSync(folder, { recursive: true, force: true });
});

it('an architect lets a witness in by four words; they ask, answer, receipt, seal and sign', async () => {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const complaints = complaintsOf(page);
  await page.goto(started.address);
  await page.getByTestId('page-shifts').waitFor();
  // The code is out of the address bar at once: a photograph of it opens nothing.
  expect(new URL(page.url()).hash).toBe('');
  await page.reload();
  await page.getByTestId('page-shifts').waitFor();
  await page.evaluate(() => {
    window.location.hash = 'record';
  });
  await page.getByTestId('let-in').click();
  await page.getByTestId('invite-witness').click();
  const words = (await page.getByTestId('invitation-four').textContent()) ?? '';
  await page.keyboard.press('Escape');

  const phone = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const witness = await phone.newPage();
  const complaintsOfWitness = complaintsOf(witness);
  await witness.goto(`http://127.0.0.1:${started.port}/`);
  await witness.getByTestId('invitation-words').fill('zoo zoo zoo zoo');
  await witness.getByTestId('come-in-commit').click();
  await witness.getByText('invitation is wrong').waitFor();
  await witness.getByTestId('invitation-words').fill(words);
  await witness.getByTestId('come-in-commit').click();
  await witness.getByTestId('ask').click();
  await witness.getByTestId('ask-objection').check();
  await witness.getByTestId('ask-text').fill('The aft spring is tight.');
  await witness.getByTestId('ask-commit').click();

  await page.getByTestId('answer').click();
  await page.getByTestId('answer-text').fill('Slackened; read again.');
  await page.getByTestId('answer-commit').click();
  await witness.getByText('Slackened; read again.').waitFor();

  await page.getByTestId('technician-work').click();
  await page.getByTestId('technician-work-reason').fill('Aft went silent.');
  await page.getByTestId('technician-work-commit').click();
  await page.getByText('The technician works on instruments').waitFor();

  await page.getByTestId('seal-reason').fill('Before the first shift');
  await page.getByTestId('seal').click();
  await witness.getByTestId('receipt').click();
  await witness.getByTestId('take-receipt').click();
  await expect
    .poll(() => witness.getByTestId('receipt-words').textContent())
    .toMatch(/^\s*\d+ ([a-z]+ ?){8}$/);
  const [copy] = await Promise.all([
    witness.waitForEvent('download'),
    witness.getByTestId('take-copy').click(),
  ]);
  expect(copy.suggestedFilename()).toMatch(/\.hwr$/);
  const lines = readFileSync(await copy.path(), 'utf8').split('\n');
  expect(JSON.parse(lines[0]!)).toMatchObject({ n: 0, kind: 'record-opened' });
  await witness.getByTestId('sign').click();
  await page.getByText('Signed by Witness, witness').waitFor();
  expect(await witness.getByTestId('main-act').count()).toBe(0);
  expect([...complaints, ...complaintsOfWitness]).toEqual([]);
  await phone.close();
  await page.close();
}, 120_000);

it("another origin's page gets no socket, whatever it knows", async () => {
  const page = await browser.newPage();
  await page.goto(`http://127.0.0.1:${(foreign.address() as AddressInfo).port}/`);
  const opened = await page.evaluate(
    (url) =>
      new Promise<string>((resolve) => {
        const socket = new WebSocket(url);
        socket.onopen = () => resolve('open');
        socket.onerror = () => resolve('refused');
      }),
    `ws://127.0.0.1:${started.port}/screen`,
  );
  expect(opened).toBe('refused');
  const read = await page.evaluate(
    (url) =>
      fetch(url).then(
        () => 'read',
        () => 'refused',
      ),
    `http://127.0.0.1:${started.port}/health`,
  );
  expect(read).toBe('refused');
  await page.close();
});
