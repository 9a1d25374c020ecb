import { Fault } from '../fault/fault.ts';

/** Scripts a document is printed in; marks and signs belong to no script. */
const SCRIPTS =
  /^[\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}\p{Script=Inherited}]$/u;
/** Turns the direction of what follows, or hides in it: never printed as it stands. */
const UNSEEN = /^[\p{Cc}\p{Cf}\p{Co}\p{Cs}\p{Cn}]$/u;
const MOST_NAMED = 8;

/**
 * A text as it can be printed: letters of Latin, Greek and Cyrillic stand as they are; a sign the
 * font does not have (`hasGlyph` of its code point), or one that cannot be seen, stands as its
 * number, [U+1F642], so that nothing is left out and no empty box stands for it. Newline stays.
 * Throws `text-not-printable` for a letter of any other script, naming the letters.
 */
export function printableText(
  text: string,
  where: string,
  hasGlyph: (codePoint: number) => boolean,
): string {
  const foreign = new Set<string>();
  let printed = '';
  for (const letter of text) {
    const codePoint = letter.codePointAt(0) ?? 0;
    if (letter === '\n') printed += letter;
    else if (UNSEEN.test(letter)) printed += named(codePoint);
    else if (!SCRIPTS.test(letter)) foreign.add(letter);
    else if (hasGlyph(codePoint)) printed += letter;
    else printed += named(codePoint);
  }
  if (foreign.size > 0) {
    const found = [...foreign]
      .slice(0, MOST_NAMED)
      .map((letter) => named(letter.codePointAt(0) ?? 0));
    throw new Fault('text-not-printable', where, `letters ${found.join(' ')}`);
  }
  return printed;
}

function named(codePoint: number): string {
  return `[U+${codePoint.toString(16).toUpperCase().padStart(4, '0')}]`;
}
