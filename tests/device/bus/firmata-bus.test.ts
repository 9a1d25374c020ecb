import { describe, expect, it } from 'vitest';
import { FirmataBus } from '#device/bus/firmata-bus.ts';
import { FakeFirmata } from '../support/fake-firmata.ts';
import { faultOf } from '../support/scripted-bus.ts';

const turn = () => new Promise((resolve) => setImmediate(resolve));

describe('the bus through Firmata', () => {
  it('keeps one request in flight, in order', async () => {
    const board = new FakeFirmata();
    const bus = new FirmataBus(board.io, 'test');
    const first = bus.read(0x6a, 0x0f, 1);
    const second = bus.read(0x6a, 0x0f, 1);
    const third = bus.write(0x6a, 0x10, [0x42]);
    await turn();
    expect(board.asked).toEqual([
      ['config', 0x6a],
      ['read', 0x6a, 0x0f, 1],
    ]);
    board.answer(0x6a, 0x0f, [0x6b]);
    expect([...(await first)]).toEqual([0x6b]);
    await turn();
    board.answer(0x6a, 0x0f, [0x6c]);
    expect([...(await second)]).toEqual([0x6c]);
    await third;
    expect(board.asked.at(-1)).toEqual(['write', 0x6a, 0x10, 0x42]);
  });

  it.each([
    ['bus-no-answer', 'I2C: no answer', []],
    ['bus-stuck', 'I2C: bus held', []],
    ['bus-stuck', 'I2C: time limit', []],
    ['bus-no-answer', 'I2C: Too few bytes received', []],
    ['bus-short-reply', 'I2C: Too few bytes received', [1]],
  ])('names %s when the board says "%s"', async (code, text, bytes) => {
    const board = new FakeFirmata();
    const bus = new FirmataBus(board.io, 'test');
    const read = bus.read(0x48, 0, 2);
    await turn();
    board.emit('string', text);
    board.answer(0x48, 0, bytes);
    expect(await faultOf(read)).toBe(code);
  });

  it('waits for no reply longer than its deadline, and goes on with the next request', async () => {
    const board = new FakeFirmata();
    const bus = new FirmataBus(board.io, 'test', 20);
    expect(await faultOf(bus.read(0x48, 0, 2))).toBe('board-lost');
    const next = bus.read(0x48, 0, 2);
    await turn();
    board.answer(0x48, 0, [1, 2]);
    expect([...(await next)]).toEqual([1, 2]);
    expect(board.listenerCount('I2C-reply-72-0')).toBe(0);
  });

  it('reads at most what an Arduino buffers', async () => {
    const bus = new FirmataBus(new FakeFirmata().io, 'test');
    await expect(bus.read(0x48, 0, 33)).rejects.toThrow(RangeError);
  });
});
