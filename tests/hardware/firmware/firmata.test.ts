import { describe, expect, test } from 'vitest';
import { BoardHost, PlainChip } from '#tests/support/board-host.ts';

/** Messages as the Firmata protocol text gives them (firmata/protocol, protocol.md and i2c.md). */
const INPUT = 0;
const OUTPUT = 1;
const ANALOG = 2;
const I2C = 6;
const PULLUP = 11;

function begun(...chips: PlainChip[]): BoardHost {
  const host = new BoardHost({ chips });
  host.run(1);
  host.messages();
  return host;
}

function answer(host: BoardHost, ...sysex: number[]): number[][] {
  host.sysex(...sysex);
  host.run(0.1);
  return host.messages();
}

test('it introduces itself at every start', () => {
  const host = new BoardHost();
  host.run(1);
  const name = [...'heelwright'].flatMap((letter) => [letter.charCodeAt(0), 0]);
  const introduction = [
    [0xf9, 2, 6],
    [0xf0, 0x79, 1, 0, ...name, 0xf7],
  ];
  expect(host.messages()).toEqual(introduction);
  host.board.reset();
  host.run(1);
  expect(host.messages()).toEqual(introduction);
  host.send(0xf9);
  host.sysex(0x79);
  host.run(0.1);
  expect(host.messages()).toEqual(introduction);
});

describe('pins', () => {
  test('20 pins, the serial pair without modes, six analog inputs, I2C on the last two', () => {
    const host = begun();
    const [capabilities] = answer(host, 0x6b);
    const pins: number[][] = [[]];
    for (const byte of capabilities!.slice(2, -1)) {
      if (byte === 0x7f) pins.push([]);
      else pins.at(-1)!.push(byte);
    }
    const digital = [INPUT, 1, OUTPUT, 1];
    expect(pins.slice(0, 20)).toEqual([
      ...Array(2).fill([]),
      ...Array(12).fill([...digital, PULLUP, 1]),
      ...Array(4).fill([...digital, ANALOG, 10, PULLUP, 1]),
      ...Array(2).fill([...digital, ANALOG, 10, I2C, 1, PULLUP, 1]),
    ]);
    const [mapping] = answer(host, 0x69);
    expect(mapping).toEqual([0xf0, 0x6a, ...Array(14).fill(0x7f), 0, 1, 2, 3, 4, 5, 0xf7]);
  });

  test('an output follows port and pin writes, and its state is told', () => {
    const host = begun();
    host.send(0xf4, 13, OUTPUT, 0x91, 0x20, 0);
    host.run(0.05);
    expect(host.board.drivesHigh(13)).toBe(true);
    expect(answer(host, 0x6d, 13)).toEqual([[0xf0, 0x6e, 13, OUTPUT, 1, 0xf7]]);
    host.send(0xf5, 13, 0);
    host.run(0.05);
    expect(host.board.drivesHigh(13)).toBe(false);
    // A pin that is no output is not touched by a port write.
    host.send(0x91, 0x11, 0);
    host.run(0.05);
    expect(host.board.drivesHigh(12)).toBe(false);
  });

  test('a reported port is told at once and at each change', () => {
    const host = begun();
    host.send(0xf4, 7, PULLUP, 0xf4, 4, INPUT, 0xd0, 1);
    host.run(0.05);
    expect(host.messages()).toEqual([[0x90, 0, 0]]);
    host.board.wire(7, true);
    host.run(0.05);
    host.board.wire(4, true);
    host.run(0.05);
    expect(host.messages()).toEqual([
      [0x90, 0, 1],
      [0x90, 0x10, 1],
    ]);
    host.send(0xd0, 0);
    host.board.wire(4, false);
    host.run(0.05);
    expect(host.messages()).toEqual([]);
    expect(answer(host, 0x6d, 7)).toEqual([[0xf0, 0x6e, 7, PULLUP, 1, 0xf7]]);
  });

  test('analog inputs are told at the sampling interval until a system reset', () => {
    const host = begun();
    host.send(0xc0, 1, 0xc3, 1);
    host.sysex(0x7a, 50, 0);
    host.run(2);
    const told = host.messages();
    const first = told.filter(([kind]) => kind === 0xe0).length;
    expect(first).toBeGreaterThanOrEqual(39);
    expect(first).toBeLessThanOrEqual(42);
    expect(told.filter(([kind]) => kind === 0xe3).length).toBe(first);
    for (const [, low, high] of told) expect(low! + 128 * high!).toBeLessThan(1024);
    host.send(0xff);
    host.run(0.1);
    host.messages();
    host.run(0.5);
    expect(host.messages()).toEqual([]);
  });
});

describe('I2C', () => {
  const REPEATED_START = 0x40;
  const reply = (address: number, register: number, bytes: number[]): number[] => [
    ...[0xf0, 0x77, address, 0, register & 0x7f, register >> 7],
    ...bytes.flatMap((byte) => [byte & 0x7f, byte >> 7]),
    0xf7,
  ];

  function configured(): { host: BoardHost; chip: PlainChip } {
    const chip = new PlainChip(0x1d);
    chip.registers.set([0xad, 0x1d, 0xed]);
    const host = begun(chip);
    host.sysex(0x78, 0, 0);
    return { host, chip };
  }

  test.each([0, REPEATED_START])('reads once, mode bit %d', (bit) => {
    const { host, chip } = configured();
    expect(answer(host, 0x76, 0x1d, 0x08 | bit, 0, 0, 3, 0)).toEqual([
      reply(0x1d, 0, [0xad, 0x1d, 0xed]),
    ]);
    expect(chip.starts).toBe(2);
  });

  test('reads 32 bytes, from a register beyond 127, and without a register', () => {
    const { host, chip } = configured();
    chip.registers.fill(0xff, 0x90, 0xb0);
    expect(answer(host, 0x76, 0x1d, 0x08, 0x10, 1, 32, 0)).toEqual([
      reply(0x1d, 0x90, Array(32).fill(0xff)),
    ]);
    chip.registers[0xb0] = 9;
    expect(answer(host, 0x76, 0x1d, 0x08, 1, 0)).toEqual([reply(0x1d, 0, [9])]);
  });

  test('waits between register and read when told to', () => {
    const { host } = configured();
    host.sysex(0x78, 100, 0);
    expect(answer(host, 0x76, 0x1d, 0x08, 1, 0, 1, 0)).toEqual([reply(0x1d, 1, [0x1d])]);
  });

  test('writes', () => {
    const { host, chip } = configured();
    expect(answer(host, 0x76, 0x1d, 0x00, 0x2d, 0, 0x7f, 1)).toEqual([]);
    expect(chip.writes.at(-1)).toEqual([0x2d, 0xff]);
  });

  test('reads on at the sampling interval and stops', () => {
    const { host } = configured();
    host.sysex(0x7a, 10, 0);
    host.sysex(0x76, 0x1d, 0x10, 0, 0, 2, 0);
    host.sysex(0x76, 0x1d, 0x10, 1, 0, 1, 0);
    host.run(1.05);
    const told = host.messages();
    expect(told.length).toBeGreaterThan(200);
    expect(told[0]).toEqual(reply(0x1d, 0, [0xad, 0x1d]));
    expect(told[1]).toEqual(reply(0x1d, 1, [0x1d]));
    host.sysex(0x76, 0x1d, 0x18);
    host.run(0.1);
    host.messages();
    host.run(0.3);
    expect(host.messages()).toEqual([]);
  });

  test('a chip that is not there: a text, and a reply without bytes', () => {
    const { host } = configured();
    host.sysex(0x76, 0x1e, 0x08, 4, 0, 2, 0);
    host.run(0.1);
    const { strings, other } = host.heard();
    expect(strings).toEqual(['I2C: no answer']);
    expect(other).toEqual([reply(0x1e, 4, [])]);
  });

  test('a held bus: a text each time, and all is well when it is free again', () => {
    const { host } = configured();
    host.board.disturbBus({ kind: 'clock-held' });
    host.sysex(0x76, 0x1d, 0x08, 0, 0, 1, 0);
    host.run(0.1);
    expect(host.heard()).toMatchObject({
      strings: ['I2C: bus held'],
      other: [reply(0x1d, 0, [])],
    });
    host.board.disturbBus({ kind: 'none' });
    expect(answer(host, 0x76, 0x1d, 0x08, 0, 0, 1, 0)).toEqual([reply(0x1d, 0, [0xad])]);
  });

  test.each([
    ['before the config', false, [0x1d, 0x08, 0, 0, 1, 0], 'I2C: not configured'],
    ['10-bit addresses', true, [0x1d, 0x28, 0, 0, 1, 0], 'I2C: 10-bit address'],
    ['33 bytes', true, [0x1d, 0x08, 0, 0, 33, 0], 'I2C: count'],
    ['no bytes', true, [0x1d, 0x08, 0, 0, 0, 0], 'I2C: count'],
    ['33 bytes to write', true, [0x1d, 0, ...Array<number>(66).fill(1)], 'I2C: too many bytes'],
  ])('refuses %s in words', (_, configure, request, text) => {
    const host = begun(new PlainChip(0x1d));
    if (configure) host.sysex(0x78, 0, 0);
    host.sysex(0x76, ...request);
    host.run(0.1);
    expect(host.heard().strings).toEqual([text]);
  });

  test('a ninth continuous read is refused, the eight go on', () => {
    const { host } = configured();
    for (let register = 0; register < 9; register++) {
      host.sysex(0x76, 0x1d, 0x10, register, 0, 1, 0);
    }
    host.run(0.2);
    const { strings, other } = host.heard();
    expect(strings).toEqual(['I2C: too many reads']);
    expect(new Set(other.map((message) => message[4])).size).toBe(8);
  });

  test('pins 18 and 19 belong to I2C until a system reset', () => {
    const { host } = configured();
    host.send(0xf4, 18, OUTPUT);
    expect(answer(host, 0x6d, 18)).toEqual([[0xf0, 0x6e, 18, I2C, 0, 0xf7]]);
    host.send(0xff, 0xf4, 18, OUTPUT);
    expect(answer(host, 0x6d, 18)).toEqual([[0xf0, 0x6e, 18, OUTPUT, 0, 0xf7]]);
  });
});
