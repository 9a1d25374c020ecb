import { Fault } from '../fault/fault.ts';

const MOST_BYTES = 50 * 1024 * 1024;
const MOST_RATIO = 100;
const MOST_PARTS = 2000;

// APPNOTE 6.3.10 of the ZIP format, sections 4.3.12 and 4.3.16.
const END_SIGNATURE = 0x06054b50;
const ENTRY_SIGNATURE = 0x02014b50;
const END_BYTES = 22;
const MOST_COMMENT_BYTES = 65_535;
const ENTRY_BYTES = 46;

/**
 * Looks at what a workbook says its parts unpack to, before any is unpacked: a file of kilobytes can
 * say gigabytes. Throws `input-too-large`, or `file-not-readable` where it is no workbook.
 */
export function checkWorkbookSizes(path: string, bytes: Uint8Array): void {
  const read = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endOf(read);
  if (end === null) throw new Fault('file-not-readable', path, 'not a workbook');
  const parts = read.getUint16(end + 10, true);
  let at = read.getUint32(end + 16, true);
  if (parts > MOST_PARTS) throw new Fault('input-too-large', path, `${parts} parts`);
  let packed = 0;
  let unpacked = 0;
  for (let part = 0; part < parts; part += 1) {
    if (at + ENTRY_BYTES > bytes.length || read.getUint32(at, true) !== ENTRY_SIGNATURE)
      throw new Fault('file-not-readable', path, 'its list of parts is broken');
    packed += read.getUint32(at + 20, true);
    unpacked += read.getUint32(at + 24, true);
    at +=
      ENTRY_BYTES +
      read.getUint16(at + 28, true) +
      read.getUint16(at + 30, true) +
      read.getUint16(at + 32, true);
  }
  if (unpacked > MOST_BYTES)
    throw new Fault('input-too-large', path, `unpacks to ${unpacked} bytes, at most ${MOST_BYTES}`);
  // What is said to be packed cannot be more than there is.
  if (unpacked > MOST_RATIO * Math.min(packed, bytes.length))
    throw new Fault('input-too-large', path, `unpacks to ${unpacked} bytes of ${bytes.length}`);
}

function endOf(read: DataView): number | null {
  const first = Math.max(0, read.byteLength - END_BYTES - MOST_COMMENT_BYTES);
  for (let at = read.byteLength - END_BYTES; at >= first; at -= 1)
    if (read.getUint32(at, true) === END_SIGNATURE) return at;
  return null;
}
