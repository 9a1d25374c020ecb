import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import {
  type ModbusRequest,
  modbusCrc,
  registersOf,
  replyLength,
  requestBytes,
  withCrc,
} from '#device/bus/modbus-frame.ts';

const bytesOf = (hex: string) => Uint8Array.from(Buffer.from(hex.replaceAll(' ', ''), 'hex'));
const hexOf = (bytes: Uint8Array) =>
  [...bytes].map((byte) => byte.toString(16).padStart(2, '0').toUpperCase()).join(' ');
const TWO: ModbusRequest = { unit: 1, table: 'holding', register: 0, count: 2 };
const codeOf = (reply: Uint8Array, request = TWO) => {
  try {
    registersOf(reply, request, 'a line');
  } catch (error) {
    if (error instanceof Fault) return `${error.code} ${error.report.found}`;
    throw error;
  }
  return null;
};

// Frames as the library modbus-serial 8.0.25 makes them.
describe('a question', () => {
  it.each([
    [TWO, '01 03 00 00 00 02 C4 0B'],
    [{ ...TWO, count: 4 }, '01 03 00 00 00 04 44 09'],
  ])('%j is %s', (request, hex) => {
    expect(hexOf(requestBytes(request))).toBe(hex);
  });
});

describe('the check', () => {
  it('of any message with its check is 0', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 250 }), (bytes) => {
        expect(modbusCrc(withCrc([...bytes]))).toBe(0);
      }),
    );
  });

  it('of the nine digits is that of the published catalogue of checks', () => {
    // CRC-16/MODBUS of "123456789" is 0x4B37 (catalogue of parametrised CRC algorithms, from memory).
    expect(modbusCrc(Buffer.from('123456789'))).toBe(0x4b37);
  });
});

describe('an answer', () => {
  const reply = bytesOf('01 03 04 FF FF FC 18 BB 1D');

  it('has its registers, high byte first', () => {
    expect(registersOf(reply, TWO, 'a line')).toEqual([0xffff, 0xfc18]);
  });

  it('tells its length from its beginning', () => {
    expect(replyLength(bytesOf('01'), TWO)).toBeNull();
    expect(replyLength(bytesOf('01 03'), TWO)).toBe(9);
    expect(replyLength(bytesOf('01 83'), TWO)).toBe(5);
  });

  it('is refused with any bit turned', () => {
    for (let bit = 0; bit < reply.length * 8; bit++) {
      const turned = reply.slice();
      turned[bit >> 3]! ^= 1 << (bit & 7);
      expect(codeOf(turned), `bit ${bit}`).toMatch(/^modbus-crc /);
    }
  });

  it('is refused from another unit, of another function, with other registers', () => {
    expect(codeOf(reply, { ...TWO, unit: 2 })).toMatch(/^modbus-wrong-reply unit 1/);
    expect(codeOf(reply, { ...TWO, table: 'input' })).toMatch(/^modbus-wrong-reply/);
    expect(codeOf(reply, { ...TWO, count: 1 })).toMatch(/^modbus-wrong-reply/);
  });

  it('that is an exception says which', () => {
    expect(codeOf(withCrc([1, 0x83, 2]))).toBe('modbus-exception exception 2: register not known');
    expect(codeOf(withCrc([1, 0x83, 77]))).toBe('modbus-exception exception 77: not known');
    // One to another question than ours.
    expect(codeOf(withCrc([1, 0x84, 2]))).toMatch(/^modbus-wrong-reply/);
  });
});
