/** What a line may hold before anything looks at its meaning. */
export const MOST_JSON_DEPTH = 24;

const OPENING_BRACE = 0x7b;
const CLOSING_BRACE = 0x7d;
const OPENING_BRACKET = 0x5b;
const CLOSING_BRACKET = 0x5d;
const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const COLON = 0x3a;
const FORBIDDEN_KEY = /"(?:__proto__|constructor|prototype)"\s*:/;

/** What is seen of JSON text before it is parsed. */
export interface JsonTextSeen {
  /** Why it must not be parsed into objects; null: it may. */
  readonly danger: string | null;
  /** How many keys are written in it, in all its objects. */
  readonly keys: number;
}

/**
 * Why JSON text from a stranger must not be parsed into objects, or null when it may.
 * Looks at the text alone: nesting over 24 levels, keys that reach into prototypes (written
 * plainly or with \u escapes, which no writer of ours uses in a key).
 */
export function jsonTextDanger(text: string): string | null {
  return jsonTextSeen(text).danger;
}

/** The same with what was counted on the way. */
export function jsonTextSeen(text: string): JsonTextSeen {
  const { deepest, keys } = jsonTextCounts(text);
  return { danger: dangerOf(text, deepest), keys };
}

function dangerOf(text: string, depth: number): string | null {
  if (depth > MOST_JSON_DEPTH) return `nested over ${MOST_JSON_DEPTH} levels`;
  if (FORBIDDEN_KEY.test(text)) return 'a key that reaches into prototypes';
  if (text.includes('\\u') && /"[^"\\]*\\u[^"]*"\s*:/.test(text)) return 'an escaped key';
  return null;
}

/**
 * Keys of a parsed value, in all its objects. Fewer than were written means that one stood twice:
 * parsers differ in which of the two they believe, so that one record would be two.
 */
export function keysIn(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 0;
  const isList = Array.isArray(value);
  const values: unknown[] = isList ? value : Object.values(value);
  let keys = isList ? 0 : values.length;
  // A call for each count of a block would cost as much as parsing it.
  for (const each of values) if (typeof each === 'object' && each !== null) keys += keysIn(each);
  return keys;
}

function jsonTextCounts(text: string): { deepest: number; keys: number } {
  let keys = 0;
  let depth = 0;
  let deepest = 0;
  let quoted = false;
  for (let i = 0; i < text.length; i += 1) {
    const character = text.charCodeAt(i);
    if (quoted) {
      if (character === BACKSLASH) i += 1;
      else if (character === QUOTE) quoted = false;
    } else if (character === QUOTE) quoted = true;
    else if (character === COLON) keys += 1;
    else if (character === OPENING_BRACE || character === OPENING_BRACKET) {
      depth += 1;
      if (depth > deepest) deepest = depth;
    } else if (character === CLOSING_BRACE || character === CLOSING_BRACKET) depth -= 1;
  }
  return { deepest, keys };
}
