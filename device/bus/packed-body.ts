import { Fault } from '#core/fault/fault.ts';

/**
 * A body is a row of 8-bit bytes ending in a check; it travels as one row of bits, least bit
 * first, in groups of 7 (hardware/firmware/README.md, "Bytes in messages").
 */

/** CRC-16, polynomial 0x1021, start 0xFFFF, not reflected, no final XOR: `123456789` gives 0x29B1. */
export function checkOf(bytes: Iterable<number>): number {
  let check = 0xffff;
  for (const byte of bytes) {
    check ^= byte << 8;
    for (let bit = 0; bit < 8; bit += 1) {
      check = check & 0x8000 ? ((check << 1) ^ 0x1021) & 0xffff : (check << 1) & 0xffff;
    }
  }
  return check;
}

/** Appends the check, least byte first, and packs into 7-bit message bytes. */
export function packBody(body: readonly number[]): number[] {
  const check = checkOf(body);
  return packBits([...body, check & 0xff, check >> 8]);
}

/** Unpacks a body, proves its check and returns it without. Throws `scan-malformed`. */
export function unpackBody(packed: readonly number[], where: string): Uint8Array {
  const bytes = unpackBits(packed, where);
  if (bytes.length < 2) throw new Fault('scan-malformed', where, `${bytes.length} bytes`);
  const body = bytes.subarray(0, -2);
  const sent = bytes[bytes.length - 2]! | (bytes[bytes.length - 1]! << 8);
  const check = checkOf(body);
  if (sent !== check) {
    throw new Fault('scan-malformed', where, `check ${hex(sent)}, bytes give ${hex(check)}`);
  }
  return body;
}

function packBits(bytes: readonly number[]): number[] {
  const packed: number[] = [];
  let waiting = 0;
  let bits = 0;
  for (const byte of bytes) {
    waiting |= byte << bits;
    bits += 8;
    while (bits >= 7) {
      packed.push(waiting & 0x7f);
      waiting >>= 7;
      bits -= 7;
    }
  }
  if (bits > 0) packed.push(waiting & 0x7f);
  return packed;
}

function unpackBits(packed: readonly number[], where: string): Uint8Array {
  const bytes = new Uint8Array(Math.floor((packed.length * 7) / 8));
  let waiting = 0;
  let bits = 0;
  let count = 0;
  for (const group of packed) {
    if (group > 0x7f) throw new Fault('scan-malformed', where, `message byte ${hex(group)}`);
    waiting |= group << bits;
    bits += 7;
    if (bits >= 8) {
      bytes[count++] = waiting & 0xff;
      waiting >>= 8;
      bits -= 8;
    }
  }
  if (waiting !== 0) throw new Fault('scan-malformed', where, 'unused bits are not 0');
  return bytes;
}

function hex(value: number): string {
  return `0x${value.toString(16)}`;
}
