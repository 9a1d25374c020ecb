import { createContext, untrack } from 'svelte';
import { type Issue, issuesOfSession } from '#core/session/issues.ts';
import { resultOfSession } from '#core/session/result.ts';
import type { SessionResult } from '#core/session/session-result.ts';
import type { Link } from '../link/link.svelte.ts';

/**
 * What the day has given so far, worked out in the page from the state, so that every window shows
 * the same. Done again only when something it rests on has changed, not with every saved line.
 */
export class DayResult {
  readonly #link: Link;
  readonly #restsOn = $derived.by(() => {
    const session = this.#link.session;
    if (session === null) return null;
    const { test, states, certificates, mountings, simulation, closed } = session;
    const { corrected, replacedCertificates } = session;
    return JSON.stringify([
      [test, states, certificates, mountings, simulation?.truth, closed],
      [corrected, replacedCertificates],
    ]);
  });
  readonly #result = $derived.by(() => {
    if (this.#restsOn === null) return null;
    const session = untrack(() => this.#link.session);
    return session === null || session.test === null ? null : resultOfSession(session);
  });
  readonly #issues = $derived.by(() => {
    if (this.#restsOn === null) return [];
    const session = untrack(() => this.#link.session);
    return session === null ? [] : issuesOfSession(session);
  });

  constructor(link: Link) {
    this.#link = link;
  }

  get current(): SessionResult | null {
    return this.#result;
  }

  /** Every issue of the result, the one in force last; worked out only where a page shows them. */
  get issues(): readonly Issue[] {
    return this.#issues;
  }
}

export const [useResult, provideResult] = createContext<DayResult>();
