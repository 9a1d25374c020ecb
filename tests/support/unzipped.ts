import { crc32, inflateRawSync } from 'node:zlib';

/** The files of a ZIP by its table of contents (APPNOTE 6.3.9, 4.3.12), each held to its CRC. */
export function unzipped(zip: Buffer): Map<string, Buffer> {
  const end = zip.lastIndexOf(Buffer.from([0x50, 0x4b, 5, 6]));
  if (end < 0) throw new Error('no end of a table of contents');
  const files = new Map<string, Buffer>();
  let at = zip.readUInt32LE(end + 16);
  for (let k = 0; k < zip.readUInt16LE(end + 10); k++) {
    if (zip.readUInt32LE(at) !== 0x02014b50) throw new Error(`no entry at ${at}`);
    const nameBytes = zip.readUInt16LE(at + 28);
    const name = zip.subarray(at + 46, at + 46 + nameBytes).toString();
    const local = zip.readUInt32LE(at + 42);
    const packed = zip.readUInt32LE(at + 20);
    const from = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    const bytes = inflateRawSync(zip.subarray(from, from + packed));
    if (crc32(bytes) !== zip.readUInt32LE(at + 16)) throw new Error(`${name}: another CRC`);
    if (bytes.length !== zip.readUInt32LE(at + 24)) throw new Error(`${name}: another size`);
    // With bit 3 of the flags CRC and sizes follow the data instead (4.3.9).
    const follows = (zip.readUInt16LE(local + 6) & 8) !== 0;
    if (follows && zip.readUInt32LE(from + packed) !== 0x08074b50)
      throw new Error(`${name}: no descriptor behind its data`);
    if (crc32(bytes) !== zip.readUInt32LE(follows ? from + packed + 4 : local + 14))
      throw new Error(`${name}: header differs`);
    files.set(name, bytes);
    at += 46 + nameBytes + zip.readUInt16LE(at + 30) + zip.readUInt16LE(at + 32);
  }
  return files;
}
