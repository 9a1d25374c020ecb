/**
 * The board counts its scans in 16 bits and its microseconds in 32: at 50 scans a second the
 * first wraps after 21.8 minutes, the second after 71.6. They are unwrapped together: the
 * microseconds say how much time passed, and so how often the sequence went round.
 */
export const SEQUENCE_MODULUS = 2 ** 16;
export const MICROSECOND_MODULUS = 2 ** 32;

/** Board silence after which a stream is not continued (a new one begins instead). */
export const LONGEST_SILENCE_US = 60_000_000;

export interface ScanTime {
  readonly sequence: number;
  readonly boardUs: number;
}

/** What a scan's counters say of the one before. */
export type UnwrapResult =
  | { readonly kind: 'next'; readonly time: ScanTime }
  /** The same scan again: to be dropped. */
  | { readonly kind: 'repeated' }
  /** Not a continuation: the board began anew, or was silent for too long. */
  | {
      readonly kind: 'broken';
      readonly reason: 'silence' | 'board-reset';
      readonly why: string;
    };

export class ScanUnwrapper {
  readonly #periodUs: number;
  #last: (ScanTime & { raw: ScanTime }) | null = null;

  /** @param periodUs what the board was asked to keep between two scans */
  constructor(periodUs: number) {
    this.#periodUs = periodUs;
  }

  /** `raw` counters as sent: sequence below 2^14, boardUs below 2^32. */
  next(raw: ScanTime): UnwrapResult {
    const last = this.#last;
    if (last === null) return this.#accept(raw, raw);
    const stepUs = modulo(raw.boardUs - last.raw.boardUs, MICROSECOND_MODULUS);
    const stepLow = modulo(raw.sequence - last.raw.sequence, SEQUENCE_MODULUS);
    if (stepUs === 0 && stepLow === 0) return { kind: 'repeated' };
    if (stepUs > LONGEST_SILENCE_US) {
      const why = `board time went on by ${stepUs} us in one step`;
      return { kind: 'broken', reason: 'silence', why };
    }
    const byTime = stepUs / this.#periodUs;
    const rounds = Math.max(0, Math.round((byTime - stepLow) / SEQUENCE_MODULUS));
    const step = stepLow + rounds * SEQUENCE_MODULUS;
    // More scans than there was time for is not one run of one board. Fewer is: scans left out.
    if (step === 0 || step - byTime > 1 + step * 0.5) {
      return { kind: 'broken', reason: 'board-reset', why: `${step} scans in ${stepUs} us` };
    }
    return this.#accept(raw, { sequence: last.sequence + step, boardUs: last.boardUs + stepUs });
  }

  #accept(raw: ScanTime, time: ScanTime): UnwrapResult {
    this.#last = { ...time, raw };
    return { kind: 'next', time };
  }
}

function modulo(value: number, modulus: number): number {
  return ((value % modulus) + modulus) % modulus;
}
