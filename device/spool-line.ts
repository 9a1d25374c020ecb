import { crc32 } from 'node:zlib';
import { MOST_ITEM_BYTES } from '#core/sample/stream-item.ts';
import type { StoredItem } from './stream-writer.ts';

/**
 * A line of a spool file: eight hex digits of CRC-32 over the item's bytes, a space, the item's
 * bytes, a newline. The check finds what a power cut may leave: a line cut short, zeros, or
 * someone else's bytes, also where they happen to look like JSON.
 */
const CHECK_BYTES = 9;

export function spoolLine(bytes: Buffer): Buffer {
  const check = crc32(bytes).toString(16).padStart(8, '0');
  return Buffer.concat([Buffer.from(`${check} `, 'latin1'), bytes, Buffer.from('\n', 'latin1')]);
}

/** The whole lines at the start of a spool file's bytes, and how many bytes they fill. */
export function readSpoolLines(
  file: Buffer,
  expected: { stream: string; firstNumber: number },
): { items: StoredItem[]; soundBytes: number } {
  const items: StoredItem[] = [];
  let at = 0;
  for (;;) {
    const end = file.indexOf(0x0a, at);
    if (end < 0 || end - at - CHECK_BYTES > MOST_ITEM_BYTES) break;
    const item = readLine(file.subarray(at, end), {
      stream: expected.stream,
      number: expected.firstNumber + items.length,
    });
    if (item === null) break;
    items.push(item);
    at = end + 1;
  }
  return { items, soundBytes: at };
}

function readLine(line: Buffer, expected: { stream: string; number: number }): StoredItem | null {
  const bytes = line.subarray(CHECK_BYTES);
  if (line.length <= CHECK_BYTES || line[CHECK_BYTES - 1] !== 0x20) return null;
  const check = line.subarray(0, CHECK_BYTES - 1).toString('latin1');
  if (check !== crc32(bytes).toString(16).padStart(8, '0')) return null;
  let item: unknown;
  try {
    item = JSON.parse(bytes.toString('utf8'));
  } catch {
    return null;
  }
  if (typeof item !== 'object' || item === null) return null;
  const { type, stream, number } = item as Record<string, unknown>;
  if (stream !== expected.stream || number !== expected.number) return null;
  return { ...expected, bytes, closes: type === 'stream-closed' };
}

/** An item and the line it makes, waiting for the disk. */
export interface WaitingLine {
  readonly item: StoredItem;
  readonly line: Buffer;
}

export function groupByStream(lines: readonly WaitingLine[]): Map<string, WaitingLine[]> {
  const groups = new Map<string, WaitingLine[]>();
  for (const line of lines) {
    const { stream } = line.item;
    groups.set(stream, [...(groups.get(stream) ?? []), line]);
  }
  return groups;
}
