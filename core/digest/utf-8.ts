// Node and every browser have these two; the language's own library, all that core may name, has not.
declare class TextEncoder {
  encode(text: string): Uint8Array;
}
declare class TextDecoder {
  constructor(label: 'utf-8', options: { fatal: boolean; ignoreBOM: boolean });
  decode(bytes: Uint8Array): string;
}

const encoder = new TextEncoder();
const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

export function utf8FromText(text: string): Uint8Array {
  return encoder.encode(text);
}

/** The text, or null when the bytes are not well-formed UTF-8; nothing is replaced quietly. */
export function textFromUtf8(bytes: Uint8Array): string | null {
  try {
    return decoder.decode(bytes);
  } catch {
    return null;
  }
}
