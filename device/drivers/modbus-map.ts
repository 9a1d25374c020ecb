import { z } from 'zod';
import { type Counted, counted, float32FromBits } from '#core/part/counted.ts';
import { MOST_REGISTERS, type ModbusRequest } from '../bus/modbus-frame.ts';

const register = z.number().int().min(0).max(65_535);

/** Where a number stands in a unit, and how it is put together. */
const place = {
  table: z.enum(['holding', 'input']),
  /** As it goes over the line, from 0: a manual's 40001 or 30001 is 0. */
  register,
  type: z.enum(['int16', 'uint16', 'int32', 'uint32', 'float32']),
  /** Of 32 bits: A is the highest byte. ABCD high word first, CDAB low word first, BADC and DCBA with bytes swapped. */
  order: z.enum(['ABCD', 'CDAB', 'BADC', 'DCBA']).default('ABCD'),
};

/** One quantity: where it stands, and what it is: value = offset + scale * number, in `unit`. */
export const modbusColumn = z.strictObject({
  quantity: z.enum(['heel', 'port', 'starboard', 'temperature', 'pitch']),
  ...place,
  scale: counted.shape.scale.default(1),
  offset: z.number().default(0),
  unit: counted.shape.unit,
  /** The least difference it can show, in `unit`; missing: one count, of a float not known. */
  step: z.number().positive().optional(),
  /** The ends of its range, in `unit`: at or beyond, it is saturated. Missing: the type's. */
  least: z.number().optional(),
  most: z.number().optional(),
});
export type ModbusColumn = z.infer<typeof modbusColumn>;

/** A number that says which instrument it is (a type or serial number): read at start and after a fault. */
export const modbusIdentity = z.strictObject({ ...place, equals: z.number().int() });

type Place = Pick<ModbusColumn, 'table' | 'register' | 'type' | 'order'>;

const INTEGER_RANGE = {
  int16: [-32_768, 32_767],
  uint16: [0, 65_535],
  int32: [-2_147_483_648, 2_147_483_647],
  uint32: [0, 4_294_967_295],
} as const;

export function registersNeeded({ type }: Pick<Place, 'type'>): number {
  return type === 'int16' || type === 'uint16' ? 1 : 2;
}

/** The count of a number from its registers: of a float its 32 bits, else the number itself. */
export function countFromRegisters(registers: readonly number[], of: Place): number {
  const bytes = registers.flatMap((one) => [one >>> 8, one & 0xff]);
  const inOrder =
    bytes.length === 2
      ? of.order === 'BADC' || of.order === 'DCBA'
        ? [bytes[1]!, bytes[0]!]
        : bytes
      : [...of.order].toSorted().map((letter) => bytes[of.order.indexOf(letter)]!);
  const bits = inOrder.reduce((whole, byte) => whole * 256 + byte, 0);
  if (of.type === 'int16') return bits > 32_767 ? bits - 65_536 : bits;
  if (of.type === 'int32') return bits > 2_147_483_647 ? bits - 4_294_967_296 : bits;
  return bits;
}

/** What the counts of a column stand for. */
export function countedOfColumn(column: ModbusColumn): Counted {
  const { type, scale, offset, unit, step } = column;
  const form = type === 'float32' ? 'float32' : 'integer';
  return { form, scale, offset, unit, step: step ?? (form === 'integer' ? Math.abs(scale) : null) };
}

export type CountState = 'sound' | 'saturated' | 'not-a-number';

/** Is a count a number, and inside its range? At its end is outside: what is beyond cannot be told. */
export function stateOfCount(count: number, column: ModbusColumn): CountState {
  const number = column.type === 'float32' ? float32FromBits(count) : count;
  if (!Number.isFinite(number)) return 'not-a-number';
  const value = column.offset + column.scale * number;
  if (column.least !== undefined && value <= column.least) return 'saturated';
  if (column.most !== undefined && value >= column.most) return 'saturated';
  if (column.type === 'float32') return 'sound';
  const [least, most] = INTEGER_RANGE[column.type];
  // An unsigned number may well rest at 0.
  const isLeast = least < 0 && number <= least;
  return isLeast || number >= most ? 'saturated' : 'sound';
}

/** One request, and for each place it reads how far into the answer it stands. */
export interface PlannedRead {
  readonly request: ModbusRequest;
  readonly places: readonly { readonly index: number; readonly at: number }[];
}

/** Registers between two places that are rather read along than asked for in a request of their own. */
const MOST_BETWEEN = 8;

/** The fewest requests that read all places; numbers near to each other come in one answer. */
export function plannedReads(unit: number, places: readonly Place[]): PlannedRead[] {
  const order = [...places.keys()].toSorted(
    (a, b) =>
      places[a]!.table.localeCompare(places[b]!.table) || places[a]!.register - places[b]!.register,
  );
  const reads: { request: ModbusRequest; places: { index: number; at: number }[] }[] = [];
  for (const index of order) {
    const one = places[index]!;
    const end = one.register + registersNeeded(one);
    const last = reads.at(-1);
    const begin = last?.request.register ?? 0;
    const joins =
      last?.request.table === one.table &&
      one.register - (begin + last.request.count) <= MOST_BETWEEN &&
      end - begin <= MOST_REGISTERS;
    if (last !== undefined && joins) {
      last.request = { ...last.request, count: Math.max(last.request.count, end - begin) };
      last.places.push({ index, at: one.register - begin });
    } else {
      const request = { unit, table: one.table, register: one.register, count: end - one.register };
      reads.push({ request, places: [{ index, at: 0 }] });
    }
  }
  return reads;
}
