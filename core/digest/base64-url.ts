const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
const VALUE_OF = new Map([...LETTERS].map((letter, value) => [letter, value]));

/** Bytes in the letters of RFC 4648 section 5, without padding. */
export function base64UrlOf(bytes: Uint8Array): string {
  let text = '';
  let waiting = 0;
  let bits = 0;
  for (const byte of bytes) {
    waiting = (waiting << 8) | byte;
    bits += 8;
    while (bits >= 6) {
      bits -= 6;
      text += LETTERS[(waiting >> bits) & 63];
    }
    waiting &= (1 << bits) - 1;
  }
  return bits > 0 ? text + LETTERS[(waiting << (6 - bits)) & 63] : text;
}

/** The bytes, or null where the text is not exactly what `base64UrlOf` writes. */
export function bytesOfBase64Url(text: string): Uint8Array | null {
  const bytes = new Uint8Array(Math.floor((text.length * 6) / 8));
  let at = 0;
  let waiting = 0;
  let bits = 0;
  for (const letter of text) {
    const value = VALUE_OF.get(letter);
    if (value === undefined) return null;
    waiting = (waiting << 6) | value;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[at] = waiting >> bits;
    at += 1;
    waiting &= (1 << bits) - 1;
  }
  return base64UrlOf(bytes) === text ? bytes : null;
}
