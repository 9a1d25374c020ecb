import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { checkWorkbookSizes } from '#core/hull/workbook-sizes.ts';

/** A list of parts that says these sizes, and its end; nothing else of a ZIP file is looked at. */
function listOf(parts: readonly { packed: number; unpacked: number }[], comment = ''): Buffer {
  const entries = parts.map(({ packed, unpacked }) => {
    const entry = Buffer.alloc(46 + 5);
    entry.writeUInt32LE(0x02014b50, 0);
    entry.writeUInt32LE(packed, 20);
    entry.writeUInt32LE(unpacked, 24);
    entry.writeUInt16LE(5, 28);
    entry.write('a.xml', 46);
    return entry;
  });
  const list = Buffer.concat(entries);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(parts.length, 10);
  end.writeUInt32LE(20_000, 16);
  end.writeUInt16LE(comment.length, 20);
  return Buffer.concat([Buffer.alloc(20_000), list, end, Buffer.from(comment)]);
}

function refusal(bytes: Buffer): string | null {
  try {
    checkWorkbookSizes('a.xlsx', bytes);
    return null;
  } catch (error) {
    if (error instanceof Fault) return error.code;
    throw error;
  }
}

describe('the sizes a workbook says', () => {
  it('are let through when they are sound, also behind a comment', () => {
    const sound = [
      { packed: 4000, unpacked: 40_000 },
      { packed: 100, unpacked: 90 },
    ];
    expect(refusal(listOf(sound))).toBeNull();
    expect(refusal(listOf(sound, 'a comment'))).toBeNull();
  });

  it('are refused over 50 MB, over a hundredfold, and where more is said packed than there is', () => {
    expect(refusal(listOf([{ packed: 1e6, unpacked: 51 * 1024 * 1024 }]))).toBe('input-too-large');
    expect(refusal(listOf([{ packed: 100, unpacked: 20_000 }]))).toBe('input-too-large');
    expect(refusal(listOf([{ packed: 4e9, unpacked: 40e6 }]))).toBe('input-too-large');
    const many = Array.from({ length: 2001 }, () => ({ packed: 1, unpacked: 1 }));
    expect(refusal(listOf(many))).toBe('input-too-large');
  });

  it('must be there', () => {
    expect(refusal(Buffer.alloc(0))).toBe('file-not-readable');
    expect(refusal(Buffer.from('xM,zM,halfBreadthM\n'))).toBe('file-not-readable');
    const broken = listOf([{ packed: 10, unpacked: 10 }]);
    broken.writeUInt32LE(0, 20_000);
    expect(refusal(broken)).toBe('file-not-readable');
  });
});
