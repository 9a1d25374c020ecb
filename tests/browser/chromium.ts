import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import type { AxeResults } from 'axe-core';
import { type Browser, chromium, type Page } from 'playwright';
import { ARCHITECT_TOKEN, TECHNICIAN_TOKEN, WITNESS_TOKEN } from '../support/fake-receiver.ts';

/** The built screen; `npm test` and `npm start` build it when its sources changed. */
export const SCREEN_FOLDER = fileURLToPath(new URL('../../.build/screen', import.meta.url));

/** The browser that `npm test` found (CHROME_PATH), without a window. */
export async function startBrowser(): Promise<Browser> {
  if (!existsSync(SCREEN_FOLDER)) throw new Error('the screen is not built: run npm test');
  const executablePath = process.env['CHROME_PATH'];
  return chromium.launch({
    ...(executablePath === undefined ? {} : { executablePath }),
    // A browser run by root refuses its own sandbox; these pages are only ours.
    args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
  });
}

/** Lets a page into the fake receiver: with these its browser has been let in before, in each role. */
export async function keepTokens(page: Page): Promise<void> {
  await page.addInitScript(
    ([architect, witness, technician]) => {
      localStorage.setItem('heelwright-token-architect', architect ?? '');
      localStorage.setItem('heelwright-token-witness', witness ?? '');
      localStorage.setItem('heelwright-token-technician', technician ?? '');
    },
    [ARCHITECT_TOKEN, WITNESS_TOKEN, TECHNICIAN_TOKEN],
  );
}

/** Everything the page complains of: thrown errors, and console errors such as a refused script. */
export function complaintsOf(page: Page): string[] {
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  return complaints;
}

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Breaches of WCAG rules that axe can see. Runs in the page by the debugger, past its policy. */
export async function breaches(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const results = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
  );
  return results.violations.map(
    (rule) => `${rule.id}: ${rule.nodes.map((node) => node.target.join(' ')).join(' | ')}`,
  );
}
