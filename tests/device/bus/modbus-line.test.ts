import { EventEmitter } from 'node:events';
import { describe, expect, it } from 'vitest';
import { type ModbusRequest, withCrc } from '#device/bus/modbus-frame.ts';
import { ModbusLine } from '#device/bus/modbus-line.ts';
import { machineClock } from '#device/machine-clock.ts';
import type { Transport } from '#device/transport.ts';
import { faultOf } from '../support/scripted-bus.ts';

const DEADLINE_S = 0.03;
const ONE: ModbusRequest = { unit: 1, table: 'input', register: 0, count: 1 };
const answer = (value: number, unit = 1) => withCrc([unit, 4, 2, value >> 8, value & 0xff]);

/** A far end that does what a script says with each question: pieces, each after so many ms. */
class Slave extends EventEmitter implements Transport {
  readonly asked: string[] = [];
  readonly #script: { afterMs: number; bytes: Uint8Array }[][];

  constructor(script: { afterMs: number; bytes: Uint8Array }[][]) {
    super();
    this.#script = script;
  }

  write(bytes: Uint8Array): boolean {
    this.asked.push(Buffer.from(bytes).toString('hex'));
    for (const { afterMs, bytes: said } of this.#script.shift() ?? [])
      setTimeout(() => this.emit('data', said), afterMs);
    return true;
  }

  close(done?: () => void): void {
    done?.();
  }
}

function lineTo(...script: { afterMs: number; bytes: Uint8Array }[][]) {
  const slave = new Slave(script);
  const options = {
    clock: machineClock,
    where: 'a line',
    deadlineS: DEADLINE_S,
    baudRate: 115_200,
  };
  return { slave, line: new ModbusLine(slave, options) };
}
const at = (afterMs: number, bytes: Uint8Array) => ({ afterMs, bytes });

describe('a question over the line', () => {
  it('is answered in pieces of any size, with the time half way', async () => {
    const whole = answer(258);
    const { line } = lineTo([...whole].map((byte, k) => at(2 * k, Uint8Array.of(byte))));
    const before = machineClock.monotonicS();
    const { registers, atS } = await line.ask(ONE);
    expect(registers).toEqual([258]);
    expect(atS).toBeGreaterThan(before);
    expect(atS).toBeLessThan(machineClock.monotonicS());
  });

  it('waits for the one before, however that ended', async () => {
    const { line, slave } = lineTo([], [at(1, answer(1))], [at(1, answer(2))]);
    const asked = [line.ask(ONE), line.ask(ONE), line.ask(ONE)];
    const ends = await Promise.allSettled(asked);
    expect(ends.map(({ status }) => status)).toEqual(['rejected', 'fulfilled', 'fulfilled']);
    expect(slave.asked).toHaveLength(3);
  });

  it.each([
    ['modbus-no-answer', []],
    ['modbus-short-reply', [at(1, answer(1).subarray(0, 4))]],
    ['modbus-crc', [at(1, Uint8Array.of(1, 4, 2, 0, 1, 0, 0))]],
    ['modbus-wrong-reply', [at(1, answer(1, 2))]],
    ['modbus-exception', [at(1, withCrc([1, 0x84, 2]))]],
  ])('ends with %s', async (code, script) => {
    const { line } = lineTo(script, [at(1, answer(7))]);
    expect(await faultOf(line.ask(ONE))).toBe(code);
    expect((await line.ask(ONE)).registers).toEqual([7]);
  });

  it('never takes the late answer to an earlier one for its own', async () => {
    const { line } = lineTo([at(45, answer(1))], [at(5, answer(2))]);
    expect(await faultOf(line.ask(ONE))).toBe('modbus-no-answer');
    expect((await line.ask(ONE)).registers).toEqual([2]);
  });

  it('throws away what nobody asked for, and keeps no more than its limit', async () => {
    const { line, slave } = lineTo([at(1, answer(3))]);
    for (let k = 0; k < 50; k++)
      slave.emit(
        'data',
        Uint8Array.from({ length: 100 }, () => k),
      );
    expect((await line.ask(ONE)).registers).toEqual([3]);
  });
});
