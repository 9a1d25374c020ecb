import { afterEach, describe, expect, it, vi } from 'vitest';
import { LoopDelay } from '#receiver/loop-delay.ts';
import { pause } from '#tests/support/programs.ts';

/** Holds the loop as a long piece of work would. */
function hold(ms: number): void {
  const untilMs = performance.now() + ms;
  while (performance.now() < untilMs);
}

describe('LoopDelay', () => {
  let loop: LoopDelay | null = null;
  afterEach(() => {
    loop?.stop();
    vi.useRealTimers();
  });

  it('shows how long the loop was held, at least and nearly', async () => {
    loop = new LoopDelay();
    await pause(30);
    hold(150);
    await pause(30);
    const { loopDelayMostMs, loopDelayP99Ms } = loop.figures();
    // It was held 150 ms; a timer may have been due up to its interval later.
    expect(loopDelayMostMs).toBeGreaterThan(140);
    expect(loopDelayP99Ms).toBeLessThanOrEqual(loopDelayMostMs);
  });

  it('is never negative, also before the first timer and when idle', async () => {
    loop = new LoopDelay();
    expect(loop.figures()).toEqual({ loopDelayP99Ms: 0, loopDelayMostMs: 0 });
    await pause(40);
    expect(loop.figures().loopDelayP99Ms).toBeGreaterThanOrEqual(0);
  });

  it('remembers the minute before and then forgets', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
    loop = new LoopDelay();
    await pause(20);
    hold(120);
    await pause(20);
    vi.advanceTimersByTime(60_000);
    expect(loop.figures().loopDelayMostMs).toBeGreaterThan(110);
    const held = loop.figures().loopDelayMostMs;
    vi.advanceTimersByTime(60_000);
    expect(loop.figures().loopDelayMostMs).toBeLessThan(held);
  });

  it('does not keep a program running', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
    loop = new LoopDelay();
    expect(vi.getTimerCount()).toBe(1);
    loop.stop();
    expect(vi.getTimerCount()).toBe(0);
    await pause(1);
  });
});
