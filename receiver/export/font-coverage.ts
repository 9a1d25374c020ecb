/** Platform 3 (Windows), encoding 10: the whole of Unicode. OpenType 1.9, `cmap`. */
const WINDOWS = 3;
const FULL_UNICODE = 10;
const SEGMENTED_COVERAGE = 12;
const GROUPS_AT = 16;
const GROUP_BYTES = 12;

/**
 * The code points a TrueType font has glyphs for, from its `cmap` table (format 12). RangeError
 * where the font has no such table.
 */
export function fontCoverage(font: Uint8Array): (codePoint: number) => boolean {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength);
  const cmapAt = tableAt(view, 'cmap');
  const subtableAt = cmapAt + unicodeSubtable(view, cmapAt);
  const groups = Array.from({ length: view.getUint32(subtableAt + GROUPS_AT - 4) }, (_, k) => {
    const at = subtableAt + GROUPS_AT + k * GROUP_BYTES;
    return [view.getUint32(at), view.getUint32(at + 4)] as const;
  });
  return (codePoint) => {
    let low = 0;
    let high = groups.length - 1;
    while (low <= high) {
      const middle = (low + high) >> 1;
      const [first, last] = groups[middle] ?? [0, -1];
      if (codePoint < first) high = middle - 1;
      else if (codePoint > last) low = middle + 1;
      else return true;
    }
    return false;
  };
}

function tableAt(view: DataView, wanted: string): number {
  const tables = view.getUint16(4);
  for (let k = 0; k < tables; k++) {
    const at = 12 + 16 * k;
    const name = String.fromCharCode(...[0, 1, 2, 3].map((byte) => view.getUint8(at + byte)));
    if (name === wanted) return view.getUint32(at + 8);
  }
  throw new RangeError(`the font has no table ${wanted}`);
}

/** Where the subtable of all of Unicode begins within `cmap`. */
function unicodeSubtable(view: DataView, cmapAt: number): number {
  const subtables = view.getUint16(cmapAt + 2);
  for (let k = 0; k < subtables; k++) {
    const at = cmapAt + 4 + 8 * k;
    const offset = view.getUint32(at + 4);
    const isFull = view.getUint16(at) === WINDOWS && view.getUint16(at + 2) === FULL_UNICODE;
    if (isFull && view.getUint16(cmapAt + offset) === SEGMENTED_COVERAGE) return offset;
  }
  throw new RangeError('the font does not say which letters it has');
}
