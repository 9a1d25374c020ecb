import type { Verdict } from '#core/steadiness/estimate.ts';
import type { LivePicture } from '#core/wire/screen-message.ts';
import type { Link } from '../link/link.svelte.ts';

/** A disturbance word stays at least this long so that it can be read. */
const DISTURBED_HOLDS_MS = 3000;

/**
 * The live picture slowed to what an eye can read: the figure twice a second (once with reduced
 * motion), and a verdict whose disturbance word is not gone before it is read.
 */
export class Calm {
  live = $state.raw<LivePicture | null>(null);
  verdict = $state.raw<{ verdict: Verdict; reason: string }>({ verdict: 'silent', reason: '' });
  #disturbedUntilMs = 0;

  constructor(link: Link) {
    $effect(() => {
      const slow = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
      const take = () => {
        this.live = link.live;
        if (link.live !== null) this.#hold(link.live.joined);
      };
      take();
      const timer = setInterval(take, slow ? 1000 : 500);
      return () => clearInterval(timer);
    });
  }

  #hold(joined: { verdict: Verdict; reason: string }): void {
    const nowMs = performance.now();
    if (joined.verdict === 'disturbed') this.#disturbedUntilMs = nowMs + DISTURBED_HOLDS_MS;
    else if (nowMs < this.#disturbedUntilMs) return;
    this.verdict = { verdict: joined.verdict, reason: joined.reason };
  }
}
