import { readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import writeXlsxFile from 'write-excel-file/node';
import { FakeDay } from '../support/fake-day.ts';
import { type FakeReceiver, startFakeReceiver } from '../support/fake-receiver.ts';
import { breaches, complaintsOf, keepTokens, SCREEN_FOLDER, startBrowser } from './chromium.ts';

const DESK = { width: 1280, height: 800 };
const PHONE = { width: 390, height: 844 };
const hullFile = (name: string) =>
  new URL(`../../device/emulated/${name}`, import.meta.url).pathname;
/** One grey pixel, as any camera's picture stands for it: PNG, made by hand. */
const PIXEL = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
  'base64',
);

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

async function open(
  where: string,
  options: { viewport?: typeof DESK; colorScheme?: 'light' | 'dark' } = {},
): Promise<{ page: Page; complaints: string[] }> {
  const page = await browser.newPage({ viewport: DESK, ...options });
  const complaints = complaintsOf(page);
  await keepTokens(page);
  await page.goto(fake.url + where);
  await page.getByTestId('simulated-band').waitFor();
  return { page, complaints };
}

const boxSection = (xM: number) => [`${xM},0,0`, `${xM},0,3`, `${xM},3,3`];
const go = (page: Page, part: string) => page.goto(`${fake.url}#${part}`);
async function fill(page: Page, fields: Readonly<Record<string, string>>): Promise<void> {
  for (const [path, text] of Object.entries(fields))
    await page.getByTestId(`entry-${path}`).fill(text);
}
async function commit(page: Page, testid = 'entry-commit'): Promise<void> {
  await page.getByTestId(testid).click();
  await page.getByRole('dialog').waitFor({ state: 'detached' });
}
const standing = (sheet: string, key: string, occasion = 'before') =>
  fake.day.session.survey.entries.find(
    (one) => one.sheet === sheet && one.key === key && one.occasion === occasion,
  );

describe('the day is prepared, surveyed and closed on the screen', () => {
  it('her length, her hull from its files, the lightship, a second look, the checks', async () => {
    const { page, complaints } = await open('#prepare');
    expect(await page.getByTestId('missing').textContent()).toContain('length and uncertainties');
    await page.getByTestId('enter-vessel').click();
    await fill(page, {
      lengthM: '15',
      readingUncertaintyM: '3 mm',
      hydrometerUncertaintyKgM3: '0,5',
    });
    expect(await page.getByTestId('entry-commit').textContent()).toContain('missing');
    await fill(page, { freeSurfaceUncertaintyShare: '5 %' });
    expect(
      await page.getByTestId('entry-freeSurfaceUncertaintyShare').getAttribute('aria-invalid'),
    ).toBe('true');
    await fill(page, { freeSurfaceUncertaintyShare: '0.05' });
    expect(await breaches(page)).toEqual([]);
    await commit(page);
    expect(standing('vessel', 'vessel')?.value).toEqual({
      lengthM: 15,
      readingUncertaintyM: 0.003,
      hydrometerUncertaintyKgM3: 0.5,
      freeSurfaceUncertaintyShare: 0.05,
    });

    await go(page, 'prepare/hull');
    const offsets = readFileSync(hullFile('marram-offsets.csv'), 'utf8').split('\n');
    const spoilt = offsets.with(4, offsets[4]!.replace(/[^,]*$/, 'broad')).join('\n');
    await page.getByTestId('hull-file').setInputFiles({
      name: 'spoilt.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(spoilt),
    });
    expect(await page.getByTestId('hull-refused').textContent()).toMatch(
      /spoilt\.csv: row 5, column .*"broad"/,
    );
    const cells = ['xM,zM,halfBreadthM', ...[0, 5, 10, 15, 20].flatMap(boxSection)].map((row) =>
      row.split(',').map((cell) => ({ value: /M$/.test(cell) ? cell : Number(cell) })),
    );
    const workbook = join(tmpdir(), `box-${process.pid}.xlsx`);
    await writeXlsxFile(cells).toFile(workbook);
    await page.getByTestId('hull-file').setInputFiles(workbook);
    await page.getByTestId('hull-preview').getByText('20.00 m over all').waitFor();
    await page
      .getByTestId('hull-file')
      .setInputFiles([hullFile('marram.json'), hullFile('marram-offsets.csv')]);
    await page
      .getByTestId('hull-preview')
      .getByText(/16\.\d\d m over all/)
      .waitFor();
    await page.getByTestId('hull-share').fill('0.002');
    await page.getByTestId('hull-km').fill('4 mm');
    expect(await page.getByTestId('hull-commit').textContent()).toContain('KM');
    await page.getByTestId('hull-km').fill('0.004');
    await page.getByTestId('hull-commit').click();
    await page.getByTestId('hull-entered').waitFor();
    expect(await page.getByTestId('hull-entered').textContent()).toContain('0.00 and 15.00 m');

    await go(page, 'prepare/lightship');
    await page.getByTestId('matter-spares').selectOption('in');
    await expect.poll(() => standing('matter', 'spares')?.value).toEqual({ agreed: 'in' });
    await go(page, 'prepare/weights');
    const looks = page.getByTestId('second-looks');
    expect(await looks.textContent()).not.toContain('0.2510');
    await page.getByTestId('second-weight-A').click();
    await fill(page, { massT: '0.262', by: 'J. Hale' });
    await commit(page);
    expect(await looks.textContent()).toMatch(/0\.2510 t.*0\.2620 t.*\+0\.0110/s);
    await go(page, 'prepare/checks');
    await page.getByTestId('holds-lines-slack').click();
    await expect
      .poll(() => standing('check', 'lines-slack')?.value)
      .toEqual({ holds: true, note: '' });
    await go(page, 'prepare/plan');
    await page.getByTestId('near-water').waitFor();
    await page.getByTestId('pendulum-length').fill('2.5 m');
    expect(await page.getByTestId('plan').textContent()).toMatch(/Batten mm/);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('freeboards at proposed points, the waterline and the bad one; a thing placed on the deck', async () => {
    const { page, complaints } = await open('#survey');
    await page.getByTestId('propose-P1').click();
    await fill(page, { freeboardM: '60 cm' });
    await commit(page);
    const points = [...'12345'].flatMap((k) => [`P${k}`, `S${k}`]).slice(1);
    // A tape is read to a millimetre or two, the same in every run.
    const readM = (heightM: number, k: number) =>
      (heightM - 1.4573944 + 0.0015 * Math.sin(7 * k)).toFixed(4);
    for (const [k, point] of points.entries()) {
      await page.getByTestId(`propose-${point}`).click();
      const heightM = Number(await page.getByTestId('entry-heightM').inputValue());
      const misread = point === 'P4' ? 0.04 : 0;
      await fill(page, { freeboardM: readM(heightM + misread, k) });
      await commit(page);
    }
    expect(await page.getByTestId('missing').textContent()).toContain('P4, read again');
    await page.getByTestId('row-freeboard-P4').click();
    const heightM = Number(await page.getByTestId('entry-heightM').inputValue());
    await fill(page, { freeboardM: readM(heightM, 5) });
    await commit(page);
    await expect.poll(() => page.getByTestId('missing').count()).toBe(0);
    expect(await page.getByTestId('lies').textContent()).toMatch(/Water over the baseline.*1\.45/s);

    await go(page, 'survey/water');
    await page.getByTestId('add-water').click();
    await fill(page, { key: 'amidships, 1 m', densityKgM3: '1024.6', temperatureC: '9.4' });
    await commit(page);
    await go(page, 'survey/aboard');
    const deck = (await page.getByTestId('place').boundingBox())!;
    await page.mouse.click(deck.x + deck.width / 2 + 30, deck.y + deck.height / 2);
    expect(Number(await page.getByTestId('entry-at.yM').inputValue())).toBeGreaterThan(0.5);
    await fill(page, {
      key: 'Rope drum',
      massT: '0.34',
      massUncertaintyT: '0.01',
      'at.zM': '2.6',
      placeUncertaintyM: '5 cm',
    });
    await commit(page);
    expect(standing('item', 'Rope drum')?.value).toMatchObject({
      kind: 'deduct',
      massT: 0.34,
      placeUncertaintyM: 0.05,
    });
    await page.getByTestId('photograph').click();
    await page.getByTestId('picture').setInputFiles({
      name: 'drum.png',
      mimeType: 'image/png',
      buffer: PIXEL,
    });
    await page.getByTestId('photograph-of').selectOption('Rope drum');
    await page.getByTestId('photograph-caption').fill('port side of the drum');
    await commit(page, 'photograph-commit');
    expect(fake.day.session.survey.photographs[0]).toMatchObject({
      of: { sheet: 'item', key: 'Rope drum' },
    });
    expect(await page.getByTestId('photographs').textContent()).toContain('port side of the drum');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('two windows never disagree: what stands there is shown to who was slower', async () => {
    const first = await open('#survey/water');
    const second = await open('#survey/water', { viewport: PHONE });
    for (const { page } of [first, second]) {
      await page.getByTestId('row-water-amidships, 1 m').click();
      await page.getByTestId('entry-densityKgM3').waitFor();
    }
    await fill(second.page, { densityKgM3: '1023.1' });
    await commit(second.page);
    await fill(first.page, { densityKgM3: '1025.0' });
    const dialog = first.page.getByTestId('entry-sheet');
    await dialog.getByText('1023.1 kg/m³ at 9.4 °C').waitFor();
    expect(await first.page.getByTestId('entry-commit').isDisabled()).toBe(true);
    expect(await breaches(first.page)).toEqual([]);
    await first.page.getByTestId('entry-instead').click();
    await commit(first.page);
    expect(await second.page.getByTestId('rows-water').textContent()).toContain('1025.0');
    await first.page.reload();
    expect(await first.page.getByTestId('rows-water').textContent()).toContain('1025.0');
    await first.page.close();
    await second.page.close();
  });

  it('the same again at the end, set beside the beginning', async () => {
    fake.day.goOn(8);
    fake.tell();
    const { page, complaints } = await open('#closing', { viewport: PHONE });
    for (const point of ['P2', 'S2', 'P4', 'S4']) {
      await page.getByTestId(`take-${point}`).click();
      const before = standing('freeboard', point);
      const wasM = before?.sheet === 'freeboard' ? before.value.freeboardM : Number.NaN;
      expect(await page.getByTestId('entry-freeboardM').inputValue()).toBe('');
      await fill(page, { freeboardM: String(wasM - 0.015) });
      await commit(page);
    }
    await expect.poll(() => page.getByTestId('ends').textContent()).toMatch(/\+15\.0 mm/);
    expect(await page.getByTestId('causes').textContent()).toContain('leak');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is read by the witness, who enters nothing, at both widths and in both lights', async () => {
    for (const [viewport, colorScheme] of [
      [PHONE, 'dark'],
      [DESK, 'light'],
    ] as const) {
      const { page, complaints } = await open('?role=witness#survey/freeboards', {
        viewport,
        colorScheme,
      });
      expect(await page.getByTestId('rows-freeboard').textContent()).toContain('P4');
      for (const part of [
        'prepare/lightship',
        'prepare/checks',
        'survey/aboard',
        'closing/people',
      ]) {
        await page.goto(`${fake.url}?role=witness#${part}`);
        await page.getByTestId(`open-${part.split('/')[1]}`).waitFor();
        const main = page.locator('main');
        expect(await main.locator('button:not(.more, .see), select, input').count(), part).toBe(0);
        const over = await page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        );
        expect(over, part).toBe(0);
        expect(await breaches(page), part).toEqual([]);
      }
      expect(complaints).toEqual([]);
      await page.close();
    }
  });
});
