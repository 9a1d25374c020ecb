import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CalibrationDraft, settingsOf } from '#core/calibration/calibration-draft.ts';
import { FakeDay } from '../support/fake-day.ts';
import { type FakeReceiver, startFakeReceiver } from '../support/fake-receiver.ts';
import { breaches, complaintsOf, keepTokens, SCREEN_FOLDER, startBrowser } from './chromium.ts';

let browser: Browser;
let fake: FakeReceiver;

beforeAll(async () => {
  browser = await startBrowser();
  const day = new FakeDay();
  day.goOn(2);
  fake = await startFakeReceiver(SCREEN_FOLDER, day);
});
afterAll(async () => {
  await browser?.close();
  await fake?.close();
});

/** A bar of 500 mm and an instrument whose scale is 2 % short and whose zero is a tenth of a degree. */
const WHOLE: CalibrationDraft = {
  v: 1,
  instrument: 'fore-incline',
  kind: 'inclinometer',
  texts: {
    ...{ number: 'KS-FORE-2', date: '2026-11-25', madeBy: 'R. Quill', place: 'Kettle Sound' },
    ...{ part: 'iis2iclx', board: 'b1' },
    ...{ bus: 'I2C', address: '0x6a', standard: 'BAR-500', lengthMm: '500' },
    ...{ lengthUncertaintyMm: '0.02', heightUncertaintyMm: '0.01' },
  },
  points: settingsOf('inclinometer', 500).map(({ set, way, run }, k) => {
    const sine = (set / 500 - 0.0017) / 1.02 + 4e-6 * Math.sin(7 * k);
    return { set, shown: (Math.asin(sine) * 180) / Math.PI, way, run };
  }),
  reversal: [
    { firstDeg: 0.21, turnedDeg: -0.01 },
    { firstDeg: 0.212, turnedDeg: -0.011 },
  ],
  sixPositions: [],
  temperatureRun: [],
  step: [],
  noise: 0.0008,
  temperatureC: 19.5,
};

async function open(
  options: {
    viewport?: { width: number; height: number };
    colorScheme?: 'light' | 'dark';
    draft?: CalibrationDraft;
  } = {},
): Promise<{ page: Page; complaints: string[] }> {
  const { draft, ...rest } = options;
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 }, ...rest });
  page.setDefaultTimeout(10_000);
  const complaints = complaintsOf(page);
  await keepTokens(page);
  if (draft !== undefined) {
    await page.addInitScript(
      (text) => localStorage.setItem('heelwright-calibration-fore-incline', text),
      JSON.stringify(draft),
    );
  }
  await page.goto(`${fake.url}#sensors`);
  await page.getByTestId('calibrate-fore-incline').click();
  await page.getByTestId('calibrate').waitFor();
  return { page, complaints };
}

describe('a calibration on the screen', () => {
  it('takes typed numbers step by step, and keeps them over a reload', async () => {
    const { page, complaints } = await open();
    await page.getByTestId('text-lengthMm').fill('500');
    await page.getByTestId('step-points').click();
    await page.getByTestId('next-setting').getByText('34.88').waitFor();
    await page.getByTestId('type-shown').fill('-4.012');
    await page.getByTestId('enter-shown').click();
    await page.getByTestId('step-points').getByText('1 taken').waitFor();
    await page.getByTestId('step-reversal').click();
    for (const value of ['0.21', '-0,01']) {
      await page.getByTestId('type-shown').fill(value);
      await page.getByTestId('enter-shown').click();
    }
    await page.reload();
    await page.getByTestId('calibrate-fore-incline').click();
    await page.getByTestId('step-points').getByText('1 taken').waitFor();
    await page.getByTestId('step-reversal').getByText('1 taken').waitFor();
    await page.getByTestId('step-finish').click();
    expect(await page.getByTestId('why-not').textContent()).toMatch(/Not yet a certificate/);
    expect(await page.getByTestId('calibration-commit').isDisabled()).toBe(true);
    await page.getByTestId('calibrate-anew').click();
    expect(await page.getByTestId('step-points').textContent()).not.toContain('taken');
    expect(complaints).toEqual([]);
    await page.close();
  });

  for (const colorScheme of ['light', 'dark'] as const) {
    for (const width of [1280, 390]) {
      it(`shows what the points give, ${colorScheme}, ${width} wide`, async () => {
        const viewport = { width, height: 844 };
        const { page, complaints } = await open({ viewport, colorScheme, draft: WHOLE });
        const given = await page.getByTestId('reckoned').textContent();
        expect(given).toContain('1.02');
        for (const step of ['reversal', 'points', 'alignment', 'finish']) {
          await page.getByTestId(`step-${step}`).click();
        }
        const over = await page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        );
        expect(over).toBe(0);
        expect(await breaches(page)).toEqual([]);
        expect(complaints).toEqual([]);
        await page.close();
      });
    }
  }

  it('ends with a certificate in the record', async () => {
    const { page } = await open({ draft: WHOLE });
    await page.getByTestId('step-finish').click();
    await page.getByTestId('calibration-reason').fill('calibrated again at the dock');
    await page.getByTestId('calibration-commit').click();
    await page.getByTestId('earlier-certificate').first().waitFor();
    expect(await page.getByText('KS-FORE-2').first().isVisible()).toBe(true);
    await page.close();
  });
});
