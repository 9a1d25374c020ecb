import { Fault } from '#core/fault/fault.ts';

/**
 * NMEA 0183 allows 82 characters with `$` and the line's end (gpsd's notes on the standard); some
 * instruments send more, so twice as many are waited for (our setting).
 */
const MOST_CHARACTERS = 164;
const DOLLAR = 0x24;
const CARRIAGE_RETURN = 0x0d;
const LINE_FEED = 0x0a;

/** A sentence without its line's end, and how many bytes of the same piece came after its `$`. */
export interface FramedSentence {
  readonly text: string;
  readonly bytesSinceStart: number;
}

/** What of a line is taken apart, and what of it is not used. */
export interface SentenceListener {
  sentence(sentence: FramedSentence): void;
  malformed(fault: Fault): void;
}

/**
 * Cuts the bytes of a serial line into sentences that begin with `$`, however the bytes come: in
 * pieces of any size, in the middle of a sentence, with others of another kind between. A sentence
 * that a new one cuts short, that is too long or has unprintable characters, is told of and not used;
 * what comes before the first `$` is passed over, since one rarely begins to listen at a beginning.
 */
export class SentenceLines {
  readonly #where: string;
  readonly #listener: SentenceListener;
  /** Characters of the sentence that has begun; null: none has. */
  #begun: string | null = null;
  /** Bytes since that `$`, over all pieces. */
  #since = 0;

  constructor(where: string, listener: SentenceListener) {
    this.#where = where;
    this.#listener = listener;
  }

  take(bytes: Uint8Array): void {
    for (const [index, byte] of bytes.entries()) {
      this.#since += 1;
      if (byte === DOLLAR) this.#begin();
      else if (this.#begun === null) continue;
      else if (byte === CARRIAGE_RETURN || byte === LINE_FEED) this.#end(bytes.length - 1 - index);
      else this.#go(byte);
    }
  }

  #begin(): void {
    if (this.#begun !== null) this.#refuse(`cut short: ${this.#begun}`);
    this.#begun = '$';
    this.#since = 1;
  }

  #go(byte: number): void {
    const begun = this.#begun ?? '';
    if (byte < 0x20 || byte > 0x7e) this.#refuse(`byte ${byte} after ${begun}`);
    else if (begun.length >= MOST_CHARACTERS) this.#refuse(`over ${MOST_CHARACTERS} characters`);
    else this.#begun = begun + String.fromCharCode(byte);
  }

  #end(bytesAfter: number): void {
    const text = this.#begun ?? '';
    this.#begun = null;
    this.#listener.sentence({ text, bytesSinceStart: this.#since + bytesAfter });
  }

  #refuse(found: string): void {
    this.#begun = null;
    this.#listener.malformed(new Fault('nmea-malformed', this.#where, found));
  }
}
