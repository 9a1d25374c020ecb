import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { US_WORKING } from '#core/stability/rules/united-states.ts';
import { FakeDay } from '../support/fake-day.ts';
import { type FakeReceiver, startFakeReceiver } from '../support/fake-receiver.ts';
import { breaches, complaintsOf, keepTokens, SCREEN_FOLDER, startBrowser } from './chromium.ts';

const beside = (name: string) =>
  fileURLToPath(new URL(`../../device/emulated/${name}`, import.meta.url));

/** An authority's own set, GM alone, and a loading file that names it. */
function ownFiles(): { name: string; mimeType: string; buffer: Buffer }[] {
  const file = (name: string, json: object) => ({
    name,
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(json)),
  });
  const gm = US_WORKING.clauses.filter(({ id }) => id === 'gm');
  const loading = JSON.parse(readFileSync(beside('marram-loading.json'), 'utf8')) as object;
  const text = (name: string) => ({
    name,
    mimeType: 'text/plain',
    buffer: readFileSync(beside(name)),
  });
  return [
    file('kettle.json', { ...US_WORKING, id: 'kettle-sound', title: 'Kettle Sound', clauses: gm }),
    file('loading.json', { ...loading, ruleSets: ['kettle-sound'] }),
    text('marram.json'),
    text('marram-offsets.csv'),
  ];
}

let browser: Browser;
let fake: FakeReceiver;

beforeAll(async () => {
  browser = await startBrowser();
  fake = await startFakeReceiver(SCREEN_FOLDER, new FakeDay());
});

afterAll(async () => {
  await browser?.close();
  await fake?.close();
});

async function opened(
  width: number,
  height: number,
): Promise<{ page: Page; complaints: string[] }> {
  const page = await browser.newPage({ viewport: { width, height } });
  const complaints = complaintsOf(page);
  await keepTokens(page);
  await page.goto(`${fake.url}#loading`);
  await page.getByTestId('loading-file').setInputFiles(ownFiles());
  await page.getByTestId('loading-answer').waitFor();
  return { page, complaints };
}

async function ask(page: Page, massT: string, heightM: string): Promise<void> {
  await page.getByTestId('asked-x').fill('6');
  await page.getByTestId('asked-z').fill(heightM);
  await page.getByTestId('asked-mass').fill(massT);
}

it('answers what may be put aboard, and turns with the mass', async () => {
  const { page, complaints } = await opened(1280, 800);
  expect(await page.getByTestId('loading-vessel').textContent()).toContain('an invented vessel');
  await page.getByTestId('loading-condition').selectOption({ label: 'departure' });
  await ask(page, '0.3', '2.2');
  const answer = page.getByTestId('loading-answer');
  await expect.poll(() => answer.textContent(), { timeout: 15_000 }).toContain('met with it');
  await ask(page, '14', '6');
  await expect.poll(() => answer.textContent(), { timeout: 15_000 }).toContain('No:');
  await page.getByTestId('look-for-most').click();
  await expect
    .poll(() => page.getByTestId('most').textContent(), { timeout: 30_000 })
    .toMatch(/At most \d/);
  expect(await answer.textContent()).not.toMatch(/\b(safe|approved)\b/i);
  expect(await breaches(page)).toEqual([]);
  expect(complaints).toEqual([]);
  await page.close();
}, 60_000);

it('fits a phone, and says what is wrong with a file and where', async () => {
  const { page, complaints } = await opened(390, 844);
  const over = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(over).toBe(0);
  expect(await breaches(page)).toEqual([]);
  await page.getByTestId('loading-file').setInputFiles({
    name: 'own.json',
    mimeType: 'application/json',
    buffer: Buffer.from('{"heelwrightLoading":1,"vessel":"Marram"}'),
  });
  await expect
    .poll(() => page.getByTestId('loading-refused').textContent())
    .toContain('own.json: hull');
  expect(complaints).toEqual([]);
  await page.close();
}, 60_000);
