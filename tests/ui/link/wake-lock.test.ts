import { describe, expect, it } from 'vitest';
import { keepScreenAwake, type WakeBrowser } from '#ui/link/wake-lock.ts';

/** A page that can be hidden and seen again. */
function page() {
  let heard = () => {};
  const self = {
    visibilityState: 'visible',
    addEventListener: (_: 'visibilitychange', hears: () => void) => {
      heard = hears;
    },
    show: async (state: string) => {
      self.visibilityState = state;
      heard();
      await Promise.resolve();
    },
  };
  return self;
}

describe('keepScreenAwake', () => {
  it('asks once when opened and again when the page is seen again', async () => {
    let asked = 0;
    const held: boolean[] = [];
    const browser: WakeBrowser = {
      wakeLock: {
        request: async () => {
          asked += 1;
          return { released: false };
        },
      },
    };
    const shown = page();
    await keepScreenAwake(browser, shown, (one) => held.push(one));
    await shown.show('hidden');
    expect(asked).toBe(1);
    await shown.show('visible');
    expect(asked).toBe(2);
    expect(held).not.toContain(false);
  });

  it('says that it is not held where the browser has none or refuses', async () => {
    const held: boolean[] = [];
    await keepScreenAwake({}, page(), (one) => held.push(one));
    const refuses = { request: () => Promise.reject(new Error('NotAllowedError')) };
    await keepScreenAwake({ wakeLock: refuses }, page(), (one) => held.push(one));
    expect(held).toEqual([false, false]);
  });
});
