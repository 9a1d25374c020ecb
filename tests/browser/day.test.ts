import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Program, startProgram } from '../support/programs.ts';
import { receiverStarted } from '../support/receiver-access.ts';
import { complaintsOf, startBrowser } from './chromium.ts';

/** The fastest the program may be asked for; it falls by itself to what the machine holds. */
const PACE = '50';
const SHIFTS = 8;
/** For one step of the day on a slow machine; what is waited for is a state, never a time. */
const STEP_MS = 150_000;

let browser: Browser;
let program: Program;
let folder: string;
let url: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'heelwright-day-'));
  program = startProgram('receiver', [
    'demo',
    '--pace',
    PACE,
    '--seed',
    '11',
    '--port',
    '0',
    '--data',
    folder,
  ]);
  url = (await receiverStarted(program)).address;
  browser = await startBrowser();
}, 120_000);

afterAll(async () => {
  await browser?.close();
  await program?.stop();
  rmSync(folder, { recursive: true, force: true });
});

/** Presses the main button as soon as it bears this label and may be pressed. */
async function press(page: Page, label: string): Promise<void> {
  const act = page.getByTestId('main-act').and(page.locator('[aria-disabled=false]'));
  try {
    await act.filter({ hasText: label }).click({ timeout: STEP_MS });
  } catch (error) {
    // What the day was waiting for stands on the page, and tells more than the time-out.
    const stands = await page.getByTestId('page-shifts').textContent();
    throw new Error(`${label}: the page says:\n${stands}\n${program.said}`, { cause: error });
  }
}

describe('a whole day in the browser, against the real program', () => {
  it(
    'is clicked through to GM with its uncertainty beside the truth',
    async () => {
      const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
      const complaints = complaintsOf(page);
      await page.goto(url);
      await press(page, 'Take reading 0');
      for (let shift = 1; shift <= SHIFTS; shift += 1) {
        await press(page, `Begin shift ${shift}`);
        await press(page, 'Weight is down');
        await press(page, `Take reading ${shift}`);
        await page.getByTestId(`row-read-${shift}`).waitFor({ timeout: STEP_MS });
      }
      await press(page, 'See the result');
      const gm = (await page.getByTestId('gm').textContent()) ?? '';
      const truth = (await page.getByTestId('truth').textContent()) ?? '';
      const [, value, plusMinus] = /(\d\.\d+)\s*±\s*(\d\.\d+)/.exec(gm) ?? [];
      const [, trueGm] = /GM (\d\.\d+)/.exec(truth) ?? [];
      expect(Number(plusMinus)).toBeGreaterThan(0);
      // Five days of a hundred are outside their own ±; twice that must not happen to a good day.
      expect(Math.abs(Number(value) - Number(trueGm))).toBeLessThan(2 * Number(plusMinus));
      expect(await page.getByTestId('diagnosis').textContent()).toMatch(/plot/);
      expect(complaints).toEqual([]);
      await page.close();
    },
    (3 * SHIFTS + 3) * STEP_MS,
  );
});
