import { wordlist } from '@scure/bip39/wordlists/english.js';
import { Fault } from '../fault/fault.ts';

/**
 * Numbers as words a person can read aloud over a deck: the 2048 English words of Bitcoin
 * Improvement Proposal 39, no two of which begin with the same four letters. Eleven bits a word.
 */
export const BITS_A_WORD = 11;
const LETTERS_THAT_TELL = 4;
const MOST_LETTERS = 400;
const INDEX_OF = new Map(wordlist.map((word, index) => [word, index]));
const INDEX_OF_BEGINNING = new Map(
  wordlist.map((word, index) => [word.slice(0, LETTERS_THAT_TELL), index]),
);

/** The first `count` times eleven bits, as words. Throws `input-too-few` when there are fewer bits. */
export function wordsOfBytes(bytes: Uint8Array, count: number): string[] {
  if (bytes.length * 8 < count * BITS_A_WORD)
    throw new Fault('input-too-few', 'words', `${bytes.length} bytes make no ${count} words`);
  let waiting = 0;
  let bits = 0;
  const words: string[] = [];
  for (const byte of bytes) {
    waiting = (waiting << 8) | byte;
    bits += 8;
    if (bits < BITS_A_WORD) continue;
    bits -= BITS_A_WORD;
    words.push(wordlist[waiting >> bits] as string);
    waiting &= (1 << bits) - 1;
    if (words.length === count) break;
  }
  return words;
}

/**
 * The words of a text as they stand in the list, whatever stands between them; a word may be cut
 * to its first four letters. Throws `words-not-known` naming the first that is not in the list.
 */
export function wordsOfText(text: string): string[] {
  if (text.length > MOST_LETTERS) throw new Fault('words-not-known', 'words', 'too long a text');
  return (text.toLowerCase().match(/[a-z]+/g) ?? []).map((word) => {
    const index = INDEX_OF.get(word) ?? beginningOf(word);
    if (index === undefined) throw new Fault('words-not-known', 'words', word);
    return wordlist[index] as string;
  });
}

/** Four letters tell a word; a shorter one must be whole, and a longer beginning must fit it. */
function beginningOf(word: string): number | undefined {
  if (word.length < LETTERS_THAT_TELL) return undefined;
  const index = INDEX_OF_BEGINNING.get(word.slice(0, LETTERS_THAT_TELL));
  return index !== undefined && wordlist[index]?.startsWith(word) ? index : undefined;
}
