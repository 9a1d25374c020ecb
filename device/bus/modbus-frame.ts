import { Fault } from '#core/fault/fault.ts';

/**
 * Messages of Modbus RTU, as far as registers are read. Layout and exception codes: Modbus
 * application protocol V1.1b3, 6.3, 6.4 and 7; CRC: Modbus over serial line V1.02, 6.2.2 (both
 * *from memory*; the vectors in the tests are another library's).
 */
export type ModbusTable = 'holding' | 'input';

export interface ModbusRequest {
  /** 1 to 247. */
  readonly unit: number;
  readonly table: ModbusTable;
  /** 0 to 65535, as it stands in the message: not the number 40001 or 30001 of some manuals. */
  readonly register: number;
  /** Registers, 1 to 125. */
  readonly count: number;
}

const FUNCTION = { holding: 3, input: 4 } as const;
const EXCEPTION_BIT = 0x80;
const EXCEPTION_BYTES = 5;
/** Unit, function, count of bytes before the registers, and the check after. */
const ENVELOPE_BYTES = 5;
export const MOST_REGISTERS = 125;

const EXCEPTIONS: Readonly<Record<number, string>> = {
  1: 'function not known',
  2: 'register not known',
  3: 'value not allowed',
  4: 'failure of the instrument',
  5: 'accepted, takes long',
  6: 'busy',
  8: 'memory fault',
  10: 'gateway has no path',
  11: 'gateway gets no answer',
};

/** CRC-16, polynomial 0x8005 reflected (0xA001), start 0xFFFF. */
export function modbusCrc(bytes: Uint8Array): number {
  let crc = 0xffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xa001 : crc >>> 1;
  }
  return crc;
}

/** The check stands low byte first. */
export function withCrc(bytes: readonly number[]): Uint8Array {
  const crc = modbusCrc(Uint8Array.from(bytes));
  return Uint8Array.from([...bytes, crc & 0xff, crc >>> 8]);
}

export function requestBytes({ unit, table, register, count }: ModbusRequest): Uint8Array {
  return withCrc([
    unit,
    FUNCTION[table],
    register >>> 8,
    register & 0xff,
    count >>> 8,
    count & 0xff,
  ]);
}

/**
 * How many bytes the answer that has begun will have: an exception is short. Null while it cannot
 * be told yet.
 */
export function replyLength(begun: Uint8Array, request: ModbusRequest): number | null {
  if (begun.length < 2) return null;
  return (begun[1]! & EXCEPTION_BIT) !== 0 ? EXCEPTION_BYTES : ENVELOPE_BYTES + 2 * request.count;
}

/**
 * The registers of a whole answer, 16 bits each. Throws `modbus-crc`, `modbus-exception`,
 * `modbus-wrong-reply` (another unit, function or number of registers).
 */
export function registersOf(reply: Uint8Array, request: ModbusRequest, where: string): number[] {
  const hex = Buffer.from(reply).toString('hex');
  const body = reply.subarray(0, -2);
  const check = (reply.at(-2) ?? 0) | ((reply.at(-1) ?? 0) << 8);
  if (modbusCrc(body) !== check) throw new Fault('modbus-crc', where, hex);
  const [unit, code = 0, third = 0] = body;
  if (unit !== request.unit) throw new Fault('modbus-wrong-reply', where, `unit ${unit}: ${hex}`);
  if (code === (FUNCTION[request.table] | EXCEPTION_BIT)) {
    const words = EXCEPTIONS[third] ?? 'not known';
    throw new Fault('modbus-exception', where, `exception ${third}: ${words}`);
  }
  if (code !== FUNCTION[request.table] || third !== 2 * request.count) {
    throw new Fault('modbus-wrong-reply', where, hex);
  }
  const registers = body.subarray(3);
  return Array.from(
    { length: request.count },
    (_, k) => (registers[2 * k]! << 8) | registers[2 * k + 1]!,
  );
}
