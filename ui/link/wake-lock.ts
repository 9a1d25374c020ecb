/** What is asked of the browser, so that a test can be one. */
export interface WakeBrowser {
  readonly wakeLock?: { request(type: 'screen'): Promise<{ readonly released: boolean }> };
}
export interface WakePage {
  readonly visibilityState: string;
  addEventListener(type: 'visibilitychange', heard: () => void): void;
}

/**
 * Keeps the screen awake from now on. The browser takes the lock away whenever the page is hidden,
 * so it is asked for again each time the page is seen. `told` hears whether it is held; a browser
 * that has none, or refuses (a low battery is a reason), is no fault.
 */
export async function keepScreenAwake(
  browser: WakeBrowser,
  page: WakePage,
  told: (held: boolean) => void,
): Promise<void> {
  const ask = async () => {
    if (page.visibilityState !== 'visible') return;
    try {
      told(browser.wakeLock !== undefined && !(await browser.wakeLock.request('screen')).released);
    } catch {
      told(false);
    }
  };
  page.addEventListener('visibilitychange', () => void ask());
  await ask();
}
