import { hexToBytes } from '@noble/hashes/utils.js';
import { sha256Hex } from '../digest/sha-256.ts';
import { utf8FromText } from '../digest/utf-8.ts';
import { wordsOfBytes, wordsOfText } from '../digest/words.ts';
import { Fault } from '../fault/fault.ts';
import type { ChainHead } from './chain.ts';
import type { KnownHead } from './known-head.ts';
import type { Line } from './line.ts';

export const RECEIPT_WORDS = 8;

/**
 * How far a record had come, so short that it can be written on paper: the number of its lines and
 * eight words (88 bits of SHA-256) of the digest of the last of them.
 */
export interface Receipt {
  readonly lines: number;
  readonly words: readonly string[];
}

export function receiptOf({ lines, head }: KnownHead): Receipt {
  const text = utf8FromText(`heelwright receipt words 1\n${lines}\n${head}\n`);
  return { lines, words: wordsOfBytes(hexToBytes(sha256Hex(text)), RECEIPT_WORDS) };
}

export function receiptText({ lines, words }: Receipt): string {
  return `${lines} ${words.join(' ')}`;
}

/** A receipt as a person types it. Throws `receipt-not-read`, or `words-not-known` for a word. */
export function receiptOfText(text: string): Receipt {
  const number = /^\D{0,20}(\d{1,15})(?!\d)/.exec(text.trim());
  if (number === null)
    throw new Fault('receipt-not-read', 'receipt', 'no number of lines before the words');
  const words = wordsOfText(text.trim().slice(number[0].length));
  if (words.length !== RECEIPT_WORDS)
    throw new Fault('receipt-not-read', 'receipt', `${words.length} words, not ${RECEIPT_WORDS}`);
  return { lines: Number(number[1]), words };
}

/** Holds a record, line by line, against a receipt taken from it earlier. */
export class ReceiptCheck {
  readonly #receipt: Receipt;
  #seen: string | null = null;

  constructor(receipt: Receipt) {
    this.#receipt = receipt;
  }

  /** A line that follows: its `prev` is proven to be the head of the lines before it. */
  follow(line: Line): void {
    if (line.n === this.#receipt.lines) this.#seen = line.prev;
  }

  /** Throws `record-chain` when the record, which ends in `chain`, is not the one the receipt is of. */
  end(chain: ChainHead): void {
    const { lines, words } = this.#receipt;
    if (chain.next < lines)
      throw new Fault(
        'record-chain',
        `line ${chain.next}`,
        `the record ends here; the receipt is of ${lines} lines`,
      );
    const head = chain.next === lines ? chain.head : this.#seen;
    const seen = head === null ? null : receiptOf({ lines, head }).words.join(' ');
    if (seen !== words.join(' '))
      throw new Fault(
        'record-chain',
        `line ${lines - 1}`,
        `the receipt of the first ${lines} lines is "${seen}", not "${words.join(' ')}": a line up to this one was written anew`,
      );
  }
}
