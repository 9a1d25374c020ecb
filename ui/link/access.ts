import {
  ACCESS_VERSION,
  type Admitted,
  type FromUnknown,
  INVITATION_CODE,
} from '#core/wire/access-message.ts';
import { PERSON_ROLES, type PersonRole } from '#core/wire/role-acts.ts';
import type { Kept } from './person.ts';

const TOKEN_KEY = 'heelwright-token';

/** The parts of the address a screen comes with. */
export interface CameBy {
  /** `#` and an invitation's code, or a page of the screen. */
  readonly hash: string;
  /** `?role=` chooses among the roles this browser has been let in as. */
  readonly search: string;
}

/**
 * What opens the receiver for this browser: an invitation it came with, four words somebody typed,
 * or the token it was given, one for each role, so that two windows can show two roles.
 */
export class BrowserAccess {
  readonly #kept: Kept;
  readonly #wanted: PersonRole | null;
  #code: string | null;
  #words: string | null = null;

  constructor({ hash, search }: CameBy, kept: Kept) {
    this.#kept = kept;
    const role = new URLSearchParams(search).get('role');
    this.#wanted = PERSON_ROLES.find((one) => one === role) ?? null;
    const code = hash.slice(1);
    this.#code = INVITATION_CODE.test(code) ? code : null;
  }

  /** Did it come by an invitation? Its code is then taken out of the address bar. */
  get invited(): boolean {
    return this.#code !== null;
  }

  tryWords(words: string): void {
    this.#words = words;
  }

  /** What to say first, under this name; null when this browser has nothing that could open. */
  firstMessage(name: string): FromUnknown | null {
    const common = { version: ACCESS_VERSION, name } as const;
    if (this.#code !== null) return { type: 'invited', code: this.#code, ...common };
    if (this.#words !== null) return { type: 'invited-by-words', words: this.#words, ...common };
    const role = this.role;
    const token = role === null ? null : this.#kept.getItem(keyOf(role));
    return token === null ? null : { type: 'token', token, ...common };
  }

  /** The role this browser would come in as by what it keeps. */
  get role(): PersonRole | null {
    const has = (role: PersonRole) => this.#kept.getItem(keyOf(role)) !== null;
    if (this.#wanted !== null) return has(this.#wanted) ? this.#wanted : null;
    return PERSON_ROLES.find(has) ?? null;
  }

  /** What opens the record's copy for this browser: in a header, never in an address. */
  get authorization(): string | null {
    const role = this.role;
    const token = role === null ? null : this.#kept.getItem(keyOf(role));
    return token === null ? null : `Bearer ${token}`;
  }

  admitted({ role, token }: Admitted): void {
    this.#code = null;
    this.#words = null;
    if (role !== 'device' && token !== null) this.#kept.setItem(keyOf(role), token);
  }

  /** An invitation that opened nothing is not tried again; a token unknown there is forgotten. */
  refused(code: string): void {
    const byToken = this.#code === null && this.#words === null;
    if (byToken && code === 'access-unknown' && this.role !== null)
      this.#kept.removeItem(keyOf(this.role));
    if (code === 'access-crowded') return;
    this.#code = null;
    this.#words = null;
  }
}

function keyOf(role: PersonRole): string {
  return `${TOKEN_KEY}-${role}`;
}
