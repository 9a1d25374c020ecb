import { expect, test } from 'vitest';
import { EEPROM_BYTES, Eeprom } from '#device/emulated/eeprom.ts';

test('a new one is erased; programming only clears bits; erasing sets them', () => {
  const eeprom = new Eeprom();
  expect(eeprom.image()).toEqual(new Uint8Array(EEPROM_BYTES).fill(0xff));
  eeprom.writeMemory(3, 0x0f);
  eeprom.writeMemory(3, 0xfe);
  expect(eeprom.readMemory(3)).toBe(0x0e);
  eeprom.eraseMemory(3);
  expect(eeprom.readMemory(3)).toBe(0xff);
});

test('changes are counted, writes of the same value are not', () => {
  const eeprom = new Eeprom();
  eeprom.writeMemory(0, 0xff);
  expect(eeprom.changes).toBe(0);
  eeprom.writeMemory(0, 1);
  expect(eeprom.changes).toBe(1);
});

test('an image goes in and out unshared, and only a whole one', () => {
  const image = new Uint8Array(EEPROM_BYTES);
  const eeprom = new Eeprom(image);
  image[0] = 9;
  eeprom.image()[1] = 9;
  expect(eeprom.image()).toEqual(new Uint8Array(EEPROM_BYTES));
  expect(() => new Eeprom(new Uint8Array(512))).toThrow('1024 bytes');
});
