import { sha256Hex } from '#core/digest/sha-256.ts';

/**
 * What somebody with the file and our code could do: one line changed (its wall time by a
 * millisecond), and every line after it chained to it anew. The chain itself holds.
 */
export function rechained(lines: readonly Uint8Array[], changed: number): Uint8Array[] {
  let prev = '';
  return lines.map((bytes, n) => {
    if (n < changed) return bytes;
    let text = Buffer.from(bytes).toString('utf8');
    if (n === changed) text = text.replace(/\.(\d\d)\dZ"/, (_whole, two: string) => `.${two}7Z"`);
    else text = text.replace(/"prev":"[0-9a-f]{64}"/, `"prev":"${prev}"`);
    const anew = Buffer.from(text);
    prev = sha256Hex(anew);
    return anew;
  });
}
