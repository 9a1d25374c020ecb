import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright';
import { freePort, pause, startProgram } from '#tests/support/programs.ts';
import { receiverStarted } from '#tests/support/receiver-access.ts';

const MEASURED_MS = 10_000;

/** Runs in the page before its own program: notes each live message's way to the shown frame. */
const NOTE_FRAMES = `
  globalThis.messageToPixelMs = [];
  const Plain = globalThis.WebSocket;
  globalThis.WebSocket = class extends Plain {
    constructor(...args) {
      super(...args);
      this.addEventListener('message', ({ data }) => {
        if (!String(data).startsWith('{"type":"live"')) return;
        const arrivedMs = performance.now();
        requestAnimationFrame(() =>
          requestAnimationFrame((shownMs) => globalThis.messageToPixelMs.push(shownMs - arrivedMs)),
        );
      });
    }
  };`;

/**
 * From a live message's arrival in the page to the second frame after it, ms: by then the strip
 * has been drawn and shown. Null when no browser is named in CHROME_PATH.
 */
export async function measureMessageToPixel(): Promise<readonly number[] | null> {
  const executablePath = process.env['CHROME_PATH'];
  if (executablePath === undefined) return null;
  const folder = mkdtempSync(join(tmpdir(), 'bench-pixel-'));
  const port = await freePort();
  const demo = startProgram('receiver', [
    'demo',
    '--pace',
    '1',
    '--seed',
    '3',
    '--port',
    `${port}`,
    '--data',
    folder,
  ]);
  const browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
  try {
    const { address } = await receiverStarted(demo);
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.addInitScript({ content: NOTE_FRAMES });
    await page.goto(address);
    await pause(5000 + MEASURED_MS);
    return await page.evaluate<number[]>('globalThis.messageToPixelMs.slice(20)');
  } finally {
    await browser.close();
    await demo.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}
