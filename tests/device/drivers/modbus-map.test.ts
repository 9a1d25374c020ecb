import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { valueOfCount } from '#core/part/counted.ts';
import {
  countedOfColumn,
  countFromRegisters,
  modbusColumn,
  plannedReads,
  stateOfCount,
} from '#device/drivers/modbus-map.ts';

const columnOf = (change: object) =>
  modbusColumn.parse({
    quantity: 'heel',
    table: 'input',
    register: 0,
    type: 'int16',
    unit: 'deg',
    ...change,
  });

/** Registers a slave holds for a number, by Node's own writing of it. */
function registersFor(type: string, value: number, order: string): number[] {
  const abcd = Buffer.alloc(4);
  if (type === 'float32') abcd.writeFloatBE(value);
  else if (type === 'int32') abcd.writeInt32BE(value);
  else abcd.writeUInt32BE(value);
  const sent = [...order].map((letter) => abcd['ABCD'.indexOf(letter)]!);
  return [(sent[0]! << 8) | sent[1]!, (sent[2]! << 8) | sent[3]!];
}

describe('a number in registers', () => {
  const orders = ['ABCD', 'CDAB', 'BADC', 'DCBA'] as const;

  it('is the same in every order of its bytes', () => {
    // The reply FF FF FC 18 is -1000, at 0.001 degree -1 degree.
    const first = columnOf({ type: 'int32', scale: 0.001 });
    expect(countFromRegisters([0xffff, 0xfc18], first)).toBe(-1000);
    expect(valueOfCount(-1000, countedOfColumn(first))).toBeCloseTo(-1, 12);
    fc.assert(
      fc.property(
        fc.constantFrom(...orders),
        fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }),
        fc.float({ noNaN: true, noDefaultInfinity: true }),
        (order, integer, float) => {
          const int32 = columnOf({ type: 'int32', order });
          expect(countFromRegisters(registersFor('int32', integer, order), int32)).toBe(integer);
          const float32 = columnOf({ type: 'float32', order });
          const count = countFromRegisters(registersFor('float32', float, order), float32);
          expect(valueOfCount(count, countedOfColumn(float32))).toBe(float + 0);
        },
      ),
    );
  });

  it('of 16 bits has two orders', () => {
    for (const order of ['ABCD', 'CDAB'])
      expect(countFromRegisters([0xfffe], columnOf({ order }))).toBe(-2);
    for (const order of ['BADC', 'DCBA'])
      expect(countFromRegisters([0xfeff], columnOf({ order }))).toBe(-2);
    expect(countFromRegisters([0xfffe], columnOf({ type: 'uint16' }))).toBe(65_534);
    expect(countFromRegisters([0xffff, 0xffff], columnOf({ type: 'uint32' }))).toBe(2 ** 32 - 1);
  });
});

describe('a count', () => {
  it('at the end of its type or its range is saturated', () => {
    expect(stateOfCount(32_767, columnOf({}))).toBe('saturated');
    expect(stateOfCount(-32_768, columnOf({}))).toBe('saturated');
    expect(stateOfCount(32_766, columnOf({}))).toBe('sound');
    expect(stateOfCount(0, columnOf({ type: 'uint16' }))).toBe('sound');
    const range = { scale: 0.01, least: -30, most: 30 };
    expect(stateOfCount(3000, columnOf(range))).toBe('saturated');
    expect(stateOfCount(-2999, columnOf(range))).toBe('sound');
  });

  it('of a float that is no number is none', () => {
    const float = columnOf({ type: 'float32' });
    for (const bits of [0x7fc00000, 0x7f800000, 0xff800000])
      expect(stateOfCount(bits, float)).toBe('not-a-number');
    expect(stateOfCount(0x3f800000, float)).toBe('sound');
  });

  it('knows its step, but for a float', () => {
    expect(countedOfColumn(columnOf({ scale: -0.005 })).step).toBe(0.005);
    expect(countedOfColumn(columnOf({ type: 'float32' })).step).toBeNull();
    expect(countedOfColumn(columnOf({ type: 'float32', step: 0.001 })).step).toBe(0.001);
  });
});

describe('the questions for a map', () => {
  const place = (register: number, type = 'int16', table = 'input') =>
    columnOf({ register, type, table });

  it('are one for neighbours and one for each that is far or in another table', () => {
    const places = [place(20), place(0, 'float32'), place(4), place(0, 'int16', 'holding')];
    expect(plannedReads(7, places)).toEqual([
      {
        request: { unit: 7, table: 'holding', register: 0, count: 1 },
        places: [{ index: 3, at: 0 }],
      },
      {
        request: { unit: 7, table: 'input', register: 0, count: 5 },
        places: [
          { index: 1, at: 0 },
          { index: 2, at: 4 },
        ],
      },
      {
        request: { unit: 7, table: 'input', register: 20, count: 1 },
        places: [{ index: 0, at: 0 }],
      },
    ]);
  });

  it('ask for every register of every place, in what the protocol allows', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 400 }), fc.boolean()), { maxLength: 20 }),
        (wanted) => {
          const places = wanted.map(([at, long]) => place(at, long ? 'int32' : 'int16'));
          const reads = plannedReads(1, places);
          const seen = reads.flatMap(({ request, places: of }) => {
            expect(request.count).toBeGreaterThan(0);
            expect(request.count).toBeLessThanOrEqual(125);
            return of.map(({ index, at }) => {
              const length = places[index]!.type === 'int32' ? 2 : 1;
              expect(request.register + at).toBe(places[index]!.register);
              expect(at + length).toBeLessThanOrEqual(request.count);
              return index;
            });
          });
          expect(seen.toSorted((a, b) => a - b)).toEqual([...places.keys()]);
        },
      ),
    );
  });
});
