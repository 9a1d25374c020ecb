import { writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Certificate } from '#core/sample/certificate.ts';
import { FakeDay } from '../support/fake-day.ts';
import { type FakeReceiver, startFakeReceiver } from '../support/fake-receiver.ts';
import { breaches, complaintsOf, keepTokens, SCREEN_FOLDER, startBrowser } from './chromium.ts';

const DESK = { width: 1280, height: 800 };
const PHONE = { width: 390, height: 844 };

let browser: Browser;
let fake: FakeReceiver;

beforeAll(async () => {
  browser = await startBrowser();
  const day = new FakeDay();
  day.goOn(4);
  day.nowS += 60;
  day.begin('E. Thorne');
  day.nowS += 60;
  day.land('E. Thorne');
  day.nowS += 40;
  for (const [kind, instruments] of [
    ['wake', null],
    ['silent', ['tube']],
  ] as const)
    day.write(
      'disturbance',
      {
        fromS: day.nowS - 20,
        toS: day.nowS - 6,
        kind,
        instruments: instruments === null ? null : [...instruments],
        evidence: 'swings of 0.31°, usual 0.06°',
      },
      'receiver',
    );
  fake = await startFakeReceiver(SCREEN_FOLDER, day);
});

afterAll(async () => {
  await browser?.close();
  await fake?.close();
});

async function open(where: string, viewport = DESK): Promise<{ page: Page; complaints: string[] }> {
  const page = await browser.newPage({ viewport });
  await keepTokens(page);
  const complaints = complaintsOf(page);
  await page.goto(fake.url + where);
  await page.getByTestId('simulated-band').waitFor();
  return { page, complaints };
}

const overflow = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

describe('what is put right on the screen', () => {
  it('a mass by its line, the old value struck through in every window and in the result', async () => {
    const { page, complaints } = await open('#record');
    await page.getByTestId('line-1').click();
    await page.getByTestId('correct-field').selectOption({ label: 'Weight A, mass, t' });
    expect(await page.getByTestId('correct-stands').textContent()).toBe('0.251');
    expect(await page.getByTestId('correct-commit').isDisabled()).toBe(true);
    expect(await breaches(page)).toEqual([]);
    await page.getByTestId('correct-value').fill('0,2');
    await page.getByTestId('correct-reason').fill('Read off the slip of weight E');
    await page.getByTestId('correct-commit').click();
    await page.getByTestId('line-sheet').waitFor({ state: 'detached' });
    expect(fake.acts.at(-1)).toEqual({
      kind: 'correct',
      correction: {
        line: 1,
        changes: [{ field: ['weights', 0, 'massT'], was: 0.251, is: 0.2 }],
        reason: 'Read off the slip of weight E',
      },
    });
    const other = await open('?role=witness#result', PHONE);
    const issues = other.page.getByTestId('issues');
    expect(await issues.locator('s').first().textContent()).toBe('0.251');
    expect(await issues.textContent()).toMatch(
      /Issue 2.*Weight A, mass, t: 0\.251 0\.2.*Read off the slip of weight E.*Issue 1.*As first written/s,
    );
    expect(await overflow(other.page)).toBe(0);
    expect(await breaches(other.page)).toEqual([]);
    await other.page.goto(`${fake.url}?role=witness#shifts`);
    expect(await other.page.getByTestId('row-read-1').textContent()).toContain('0.840');
    await other.page.goto(`${fake.url}?role=witness#record`);
    expect(await other.page.getByTestId('line-1').count()).toBe(0);
    expect(await overflow(other.page)).toBe(0);
    await other.page.close();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('a correction falls away, a voided reading is put back, rejected time counts', async () => {
    const { page, complaints } = await open('#record', PHONE);
    expect(await overflow(page)).toBe(0);
    const { session } = fake.day;
    const corrected = session.corrected[0]!.corrections[0]!.written.line;
    // State 2 is read again, so its first reading cannot stand beside the second.
    const voiding = session.states[2]!.voided[0]!.voided.line;
    expect(await page.getByTestId(`line-${voiding}`).count()).toBe(0);
    const [wake, silent] = session.disturbances.map(({ written }) => written.line);
    expect(await page.getByTestId(`overrule-${silent}`).count()).toBe(0);
    for (const [opener, reason] of [
      [`line-${corrected}`, 'the slip was right'],
      [`overrule-${wake}`, 'a dinghy, no wake'],
    ] as const) {
      await page.getByTestId(opener).click();
      expect(await breaches(page)).toEqual([]);
      await page.getByTestId('overrule-reason').fill(reason);
      await page.getByTestId('overrule-commit').click();
      await page.getByTestId('overrule-sheet').waitFor({ state: 'detached' });
    }
    expect(fake.day.session.test?.weights[0]?.massT).toBe(0.251);
    await page.getByText('Counts after all: a dinghy, no wake (Architect)').waitFor();
    fake.day.write(
      'reading-voided',
      { line: session.states[4]!.readingWritten!.line, reason: 'gust' },
      'architect',
      'E. Thorne',
    );
    fake.tell();
    const gust = fake.day.session.states[4]!.voided[0]!.voided.line;
    await page.getByTestId(`line-${gust}`).click();
    await page.getByTestId('overrule-reason').fill('it was another state');
    await page.getByTestId('overrule-commit').click();
    await page.getByTestId('overrule-sheet').waitFor({ state: 'detached' });
    await page.goto(`${fake.url}#result`);
    await page.getByText('Without the overruled reading').waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('a certificate, pasted or opened from a file, checked before it can be sent', async () => {
    const { page, complaints } = await open('?role=technician#sensors', PHONE);
    const second: Certificate = {
      ...fake.day.session.certificates[0]!,
      number: 'fore-2027',
      scale: 1.0031,
    };
    await page.getByTestId('replace-fore-incline').click();
    const said = page.getByTestId('certificate-why-not');
    for (const [text, why] of [
      ['{', 'This is no JSON'],
      [JSON.stringify({ ...second, scale: 0 }), 'scale: Too small'],
      [JSON.stringify({ ...second, instrument: 'tube' }), 'It is of tube, not of fore-incline'],
      [JSON.stringify({ ...second, number: 'fore-incline-2026' }), 'was in force before'],
    ] as const) {
      await page.getByTestId('certificate-text').fill(text);
      expect(await said.textContent()).toContain(why);
    }
    const file = join(tmpdir(), `certificate-${process.pid}.json`);
    writeFileSync(file, JSON.stringify(second));
    await page.getByTestId('file').setInputFiles(file);
    await page.getByTestId('certificate-reason').fill('calibrated again');
    expect(await page.getByTestId('certificate-commit').textContent()).toContain('fore-2027');
    expect(await breaches(page)).toEqual([]);
    await page.getByTestId('certificate-commit').click();
    await page.getByTestId('certificate-sheet').waitFor({ state: 'detached' });
    expect(await page.getByTestId('earlier-certificate').textContent()).toMatch(
      /fore-incline-2026.*calibrated again/s,
    );
    expect(await overflow(page)).toBe(0);
    expect(complaints).toEqual([]);
    await page.close();
  });
});
