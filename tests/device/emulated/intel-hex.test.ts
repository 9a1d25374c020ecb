import { expect, test } from 'vitest';
import { flashFromHex } from '#device/emulated/intel-hex.ts';

const END = ':00000001FF';

test('reads words, low byte first; the rest stays erased', () => {
  // Length 4, address 0x0002, data 0C 94 34 00: the sum of all bytes is 0 modulo 256.
  const flash = flashFromHex(`:040002000C94340026\r\n${END}\r\n`, 16);
  expect([...flash]).toEqual([0xffff, 0x940c, 0x0034, 0xffff, 0xffff, 0xffff, 0xffff, 0xffff]);
});

test.each([
  [':040002000C94340027\n:00000001FF', 'line 1: checksum'],
  [':040002000C943400\n:00000001FF', 'line 1: checksum'],
  ['040002000C94340026', 'line 1: not a record'],
  [`${':040002000C94340026'}\n:020000021000EC`, 'line 2: record type 2'],
  [':04000E000C9434001A\n:00000001FF', 'line 1: outside the flash'],
  ['', 'no end record'],
])('refuses %j', (text, why) => {
  expect(() => flashFromHex(text, 16)).toThrow(why);
});
