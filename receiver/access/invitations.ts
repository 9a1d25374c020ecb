import { base64UrlOf } from '#core/digest/base64-url.ts';
import { wordsOfBytes, wordsOfText } from '#core/digest/words.ts';
import { Fault } from '#core/fault/fault.ts';
import type { AdmittedRole } from '#core/wire/access-message.ts';

export const CODE_BYTES = 16;
export const INVITATION_WORDS = 4;
export const WORDS_FOR_S = 120;
/** Forty-four bits stand a few guesses; after these, all words that are out are void. */
export const WORDS_TRIES = 5;
/** Codes that are shown on a screen; one printed at the start is valid until it is used. */
export const CODE_FOR_S = 600;
const MOST_OPEN = 32;

export interface Invitation {
  readonly role: AdmittedRole;
  readonly code: string;
  /** Null after their time, or where none were asked for. */
  readonly words: readonly string[] | null;
}

interface Open extends Invitation {
  readonly codeUntilS: number;
  readonly wordsUntilS: number;
}

/**
 * Invitations that are out, in memory only: a restart makes all of them void. Each opens once,
 * by its code or by its words, whichever comes first.
 */
export class Invitations {
  readonly #random: (bytes: number) => Uint8Array;
  readonly #nowS: () => number;
  #open: Open[] = [];
  #wrongWords = 0;

  constructor(random: (bytes: number) => Uint8Array, nowS: () => number) {
    this.#random = random;
    this.#nowS = nowS;
  }

  /** For somebody to whom it is shown. The oldest one makes room when there are too many. */
  invite(role: AdmittedRole): Invitation {
    return this.#add(role, CODE_FOR_S, wordsOfBytes(this.#random(6), INVITATION_WORDS));
  }

  /** By code alone and without an end: for who starts the program and reads what it prints. */
  inviteByCode(role: AdmittedRole): Invitation {
    return this.#add(role, Number.POSITIVE_INFINITY, null);
  }

  /** Throws `invitation-not-valid`. */
  takeCode(code: string): AdmittedRole {
    this.#forgetOld();
    const found = this.#open.find((one) => one.code === code);
    if (found === undefined) throw new Fault('invitation-not-valid', 'code', 'no such code is out');
    return this.#take(found);
  }

  /** Throws `invitation-not-valid`; a word that is in no list counts as a try as well. */
  takeWords(text: string): AdmittedRole {
    this.#forgetOld();
    const found = this.#ofWords(text);
    if (found !== undefined) return this.#take(found);
    this.#wrongWords += 1;
    if (this.#wrongWords >= WORDS_TRIES) {
      this.#open = this.#open.map((one) => ({ ...one, words: null }));
      throw new Fault('invitation-not-valid', 'words', 'too many tries: no words are valid now');
    }
    throw new Fault('invitation-not-valid', 'words', 'no such words are out');
  }

  #add(role: AdmittedRole, forS: number, words: readonly string[] | null): Invitation {
    this.#forgetOld();
    if (words !== null) this.#wrongWords = 0;
    const nowS = this.#nowS();
    const code = base64UrlOf(this.#random(CODE_BYTES));
    const open = { role, code, words, codeUntilS: nowS + forS, wordsUntilS: nowS + WORDS_FOR_S };
    this.#open = [...this.#open, open].slice(-MOST_OPEN);
    return open;
  }

  #take(open: Open): AdmittedRole {
    this.#open = this.#open.filter((one) => one !== open);
    return open.role;
  }

  #ofWords(text: string): Open | undefined {
    let words: string;
    try {
      words = wordsOfText(text).join(' ');
    } catch (error) {
      if (error instanceof Fault) return undefined;
      throw error;
    }
    return this.#open.find((one) => one.words?.join(' ') === words);
  }

  #forgetOld(): void {
    const nowS = this.#nowS();
    this.#open = this.#open
      .filter((one) => nowS < one.codeUntilS)
      .map((one) => (nowS < one.wordsUntilS ? one : { ...one, words: null }));
  }
}
