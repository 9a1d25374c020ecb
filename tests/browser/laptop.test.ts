import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LaptopState } from '#core/record/laptop-line.ts';
import { FakeDay } from '../support/fake-day.ts';
import { type FakeReceiver, startFakeReceiver } from '../support/fake-receiver.ts';
import { complaintsOf, keepTokens, SCREEN_FOLDER, startBrowser } from './chromium.ts';

const MAY_SLEEP = 'This screen may fall asleep';
const STATES: readonly [LaptopState['matter'], string][] = [
  ['battery', '14 % left'],
  ['disk', '2 hours left'],
  ['clock', '61 s behind'],
  ['folder', 'in a folder of a sync program'],
  ['sleep', 'no inhibitor is to be had'],
];

let browser: Browser;
let fake: FakeReceiver;

beforeAll(async () => {
  browser = await startBrowser();
  // Of a simulated day sleep is no matter: this one is real, and its test not opened yet.
  const day = new FakeDay(false);
  for (const [matter, found] of STATES)
    day.write(
      'laptop-state',
      { matter, station: null, severity: 'notice', found, sinceS: day.nowS },
      'receiver',
    );
  fake = await startFakeReceiver(SCREEN_FOLDER, day);
});
afterAll(async () => {
  await browser?.close();
  await fake?.close();
});

/** A page whose browser grants the lock, refuses it, or has none; asked how often. */
async function open(
  lock: 'granted' | 'refused' | 'none',
  { role = 'architect', width = 1280 } = {},
): Promise<{ page: Page; complaints: string[]; asked: () => Promise<number> }> {
  const page = await browser.newPage({ viewport: { width, height: 844 } });
  await keepTokens(page);
  const complaints = complaintsOf(page);
  await page.addInitScript((how) => {
    const counts = { asked: 0 };
    Object.assign(globalThis, { wakeCounts: counts });
    const request = () => {
      counts.asked += 1;
      return how === 'granted'
        ? Promise.resolve({ released: false })
        : Promise.reject(new Error('a low battery'));
    };
    const value = how === 'none' ? undefined : { request };
    Object.defineProperty(navigator, 'wakeLock', { configurable: true, value });
  }, lock);
  await page.goto(`${fake.url}?role=${role}#record`);
  await page.getByTestId('page-record').waitFor();
  await page.getByText('14 % left').waitFor();
  const asked = () =>
    page.evaluate(
      () => (globalThis as unknown as { wakeCounts: { asked: number } }).wakeCounts.asked,
    );
  return { page, complaints, asked };
}

describe("the architect's screen", () => {
  it.each([
    ['granted', 0],
    ['refused', 1],
    ['none', 1],
  ] as const)('says that it may sleep unless the lock is held: %s', async (lock, said) => {
    const { page, complaints, asked } = await open(lock);
    await expect.poll(() => page.getByText(MAY_SLEEP).count()).toBe(said);
    expect(await asked()).toBe(lock === 'none' ? 0 : 1);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it("asks in no witness's browser", async () => {
    const { page, asked } = await open('refused', { role: 'witness' });
    expect(await asked()).toBe(0);
    expect(await page.getByText(MAY_SLEEP).count()).toBe(0);
    await page.close();
  });

  it('is served where a browser has the lock at all', async () => {
    const page = await browser.newPage();
    await keepTokens(page);
    await page.goto(fake.url);
    expect(await page.evaluate(() => [isSecureContext, 'wakeLock' in navigator])).toEqual([
      true,
      true,
    ]);
    await page.close();
  });

  it.each([390, 1280])('shows each state of the laptop, %i wide', async (width) => {
    const { page } = await open('refused', { width });
    for (const [, found] of STATES) expect(await page.getByText(found).count()).toBe(1);
    expect(
      await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      ),
    ).toBe(0);
    await page.close();
  });
});
