import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FakeDay } from '../support/fake-day.ts';
import { type FakeReceiver, startFakeReceiver } from '../support/fake-receiver.ts';
import { breaches, complaintsOf, keepTokens, SCREEN_FOLDER, startBrowser } from './chromium.ts';

const PAGES = [
  'prepare',
  'sensors',
  'survey',
  'shifts',
  'hand',
  'closing',
  'roll',
  'result',
  'loading',
  'record',
] as const;
const DESK = { width: 1280, height: 800 };
const PHONE = { width: 390, height: 844 };

let browser: Browser;
let fake: FakeReceiver;

beforeAll(async () => {
  browser = await startBrowser();
  const day = new FakeDay();
  day.goOn(5);
  day.nowS += 60;
  day.begin('E. Thorne');
  day.nowS += 60;
  day.land('E. Thorne');
  fake = await startFakeReceiver(SCREEN_FOLDER, day);
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

describe('the screen', () => {
  for (const colorScheme of ['light', 'dark'] as const) {
    for (const name of PAGES) {
      it(`has nothing against reading ${name} by ear or with weak sight, ${colorScheme}`, async () => {
        const { page, complaints } = await open(`#${name}`, { colorScheme });
        await page.getByTestId(`page-${name}`).waitFor();
        expect(await page.evaluate(() => document.documentElement.dataset['theme'])).toBe(
          colorScheme,
        );
        expect(await breaches(page)).toEqual([]);
        expect(complaints).toEqual([]);
        await page.close();
      });
    }
  }

  for (const where of [...PAGES.map((name) => `#${name}`), '?role=witness#shifts']) {
    it(`scrolls no page sideways on a phone: ${where}`, async () => {
      const { page, complaints } = await open(where, { viewport: PHONE });
      const over = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(over).toBe(0);
      expect(await breaches(page)).toEqual([]);
      expect(complaints).toEqual([]);
      await page.close();
    });
  }

  it('keeps the main button in sight on a phone, and shows the timetable by a tap', async () => {
    const { page } = await open('#shifts', { viewport: PHONE });
    const box = await page.getByTestId('main-act').boundingBox();
    expect(box!.y + box!.height).toBeLessThanOrEqual(PHONE.height);
    expect(box!.height).toBeGreaterThanOrEqual(44);
    await page.getByTestId('timetable').click();
    await page.getByTestId('stop-record').click();
    await page.getByTestId('page-record').waitFor();
    await page.close();
  });

  it('shows the heel to its side with its uncertainty, and a struck row with its reason', async () => {
    const { page } = await open('#shifts');
    await expect.poll(() => page.getByTestId('hero').textContent()).toMatch(/2\.\d+°\s+±\u2009\d/);
    const struck = page.getByTestId('row-voided-2');
    expect(await struck.textContent()).toContain('Line touched (E. Thorne)');
    await struck.getByRole('button', { name: 'What reading' }).click();
    expect(await page.getByTestId('reading-sheet').textContent()).toContain('E. Thorne');
    await page.close();
  });

  it('reaches the main button by the keyboard alone, with a frame to be seen', async () => {
    const { page } = await open('#shifts');
    let testid: string | null = null;
    for (let presses = 0; presses < 60 && testid !== 'main-act'; presses += 1) {
      await page.keyboard.press('Tab');
      testid = await page.evaluate(() => document.activeElement?.getAttribute('data-testid') ?? '');
    }
    expect(testid).toBe('main-act');
    expect(await page.evaluate(() => getComputedStyle(document.activeElement!).outlineWidth)).toBe(
      '3px',
    );
    await page.close();
  });

  it('does not send a reading before it is steady, and does once it is', async () => {
    const { page } = await open('#shifts');
    const taken = () => fake.acts.filter((act) => act.kind === 'take-reading').length;
    fake.wish.held = 'disturbed';
    await expect
      .poll(() => page.getByTestId('verdict').getAttribute('data-verdict'))
      .toBe('disturbed');
    const before = taken();
    // Forced, for the button says that it waits.
    await page.getByTestId('main-act').click({ force: true });
    expect(taken()).toBe(before);
    fake.wish.held = 'steady';
    await expect
      .poll(() => page.getByTestId('main-act').getAttribute('aria-disabled'))
      .toBe('false');
    await page.getByTestId('main-act').click();
    await page.getByTestId('row-read-6').waitFor();
    expect(taken()).toBe(before + 1);
    fake.wish.held = null;
    await page.close();
  });

  it('strikes a reading with a reason in one window and shows it in the other', async () => {
    const { page } = await open('#shifts');
    const other = await open('?role=witness#shifts');
    await page.getByTestId('void').click();
    await page.getByTestId('void-sheet').waitFor();
    expect(await breaches(page)).toEqual([]);
    await page.getByTestId('void-reason').fill('Weight off mark');
    await page.getByTestId('void-commit').click();
    await other.page.getByTestId('row-voided-6').waitFor();
    expect(await other.page.getByTestId('row-voided-6').textContent()).toContain('Weight off mark');
    expect(await other.page.getByTestId('main-act').count()).toBe(0);
    await other.page.close();
    await page.close();
  });

  it('shows no sensor on the page for reading by hand until both are in the record', async () => {
    const { page } = await open('#hand');
    await page.getByTestId('length').fill('2.5 m');
    for (const mm of ['120', '116', '119']) {
      await page.getByTestId('extreme').fill(mm);
      await page.getByTestId('extreme').press('Enter');
    }
    expect(await page.getByTestId('page-hand').textContent()).not.toMatch(/2\.[67]\d/);
    await page.getByTestId('hand-commit').click();
    const compared = page.getByTestId('compared-6');
    await compared.waitFor();
    expect(await compared.textContent()).toContain('keeps the sensors');
    expect(await compared.textContent()).not.toContain('Hand less sensors');
    fake.day.read('E. Thorne');
    fake.tell();
    // Recorded, and still kept from this screen: another pendulum may be read yet.
    await compared.getByTestId('compare-now').waitFor();
    expect(await compared.textContent()).not.toContain('Hand less sensors');
    expect(await compared.textContent()).toContain(', blind');
    await compared.getByTestId('compare-now').click();
    await compared.getByText('Hand less sensors').waitFor();
    expect(await page.getByTestId('hand-blind').textContent()).toContain('not blind');
    await page.close();
  });

  it('takes both legs of a tube together, with a mark of time on the sheet', async () => {
    const { page, complaints } = await open('#hand');
    await page.getByRole('button', { name: 'U-tube' }).click();
    await page.getByTestId('length').fill('8 m');
    await page.getByTestId('leg-port').fill('210.5');
    await page.getByTestId('leg-port').press('Enter');
    await page.getByTestId('leg-starboard').fill('589.5');
    await page.getByTestId('leg-starboard').press('Enter');
    await page.getByText('sum 800.0 mm').waitFor();
    await page.getByTestId('mark-time').click();
    await page.getByTestId('mark-on-sheet').check();
    expect(await breaches(page)).toEqual([]);
    await page.getByTestId('hand-commit').click();
    await expect
      .poll(() => fake.acts.findLast((act) => act.kind === 'hand-reading'))
      .toMatchObject({
        reading: {
          kind: 'u-tube',
          extremesMm: [379],
          portLegMm: [210.5],
          starboardLegMm: [589.5],
          mark: 1,
        },
      });
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('sets earlier roll tests on one plot, typed off their reports, with words for the period', async () => {
    const { page, complaints } = await open('#roll');
    await page.getByTestId('roll-tell').click();
    await page.getByTestId('roll-condition').fill('as inclined');
    for (const [date, period] of [
      ['2012-06-01', '4.60'],
      ['2021-06-01', '4,95'],
    ] as const) {
      await page.getByTestId('earlier-date').fill(date);
      await page.getByTestId('earlier-condition').fill('as inclined');
      await page.getByTestId('earlier-period').fill(period);
      await page.getByTestId('earlier-half-width').fill('0.03');
      await page.getByTestId('earlier-add').click();
    }
    expect(await breaches(page)).toEqual([]);
    await page.getByTestId('roll-condition-commit').click();
    const years = page.getByTestId('roll-years');
    await years.waitFor();
    expect(await years.textContent()).toContain('Her roll has lengthened by 7.6 %');
    expect(await years.locator('circle').count()).toBe(2);
    expect(await breaches(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('strikes the figure out when the receiver is not heard, and takes it up again', async () => {
    const { page } = await open('#shifts');
    fake.hush();
    await page.getByText('The receiver is not heard', { exact: false }).first().waitFor();
    expect(await page.getByTestId('verdict').getAttribute('data-verdict')).toBe('silent');
    expect(
      await page.evaluate(
        () =>
          getComputedStyle(document.querySelector('[data-testid=hero] .value')!).textDecorationLine,
      ),
    ).toBe('line-through');
    fake.answer();
    await expect
      .poll(() => page.getByTestId('verdict').getAttribute('data-verdict'), { timeout: 10_000 })
      .not.toBe('silent');
    await page.close();
  });
});

describe('the screen before anything is known', () => {
  it('says what is missing instead of drawing an empty plot', async () => {
    const empty = await startFakeReceiver(SCREEN_FOLDER, new FakeDay());
    const page = await browser.newPage({ viewport: DESK });
    const complaints = complaintsOf(page);
    await keepTokens(page);
    await page.goto(`${empty.url}#result`);
    await page.getByText('No line yet').waitFor();
    expect(await page.getByTestId('page-result').locator('svg').count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.close();
    await empty.close();
  });
});
