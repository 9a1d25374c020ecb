import { expect, test } from 'vitest';
import { I2cBus } from '#device/emulated/i2c.ts';
import { PlainChip } from '#tests/support/board-host.ts';

function busWith(...chips: PlainChip[]): I2cBus {
  return new I2cBus(chips, () => 0);
}

function readByte(bus: I2cBus, address: number, register: number): number {
  bus.start();
  bus.address(address, true);
  bus.write(register);
  bus.start();
  bus.address(address, false);
  const byte = bus.read();
  bus.stop();
  return byte;
}

test('each chip answers to its own address; nobody reads high', () => {
  const one = new PlainChip(0x20);
  one.registers[4] = 0x44;
  const bus = busWith(one, new PlainChip(0x21));
  expect(readByte(bus, 0x20, 4)).toBe(0x44);
  expect(readByte(bus, 0x21, 4)).toBe(0);
  bus.start();
  expect(bus.address(0x22, true)).toBe(false);
  expect(bus.write(1)).toBe(false);
  expect(bus.read()).toBe(0xff);
});

test('two chips at one address are refused', () => {
  expect(() => busWith(new PlainChip(0x20), new PlainChip(0x20))).toThrow('0x20');
});

test('a fault of one chip leaves the other', () => {
  const bus = busWith(new PlainChip(0x20), new PlainChip(0x21));
  bus.disturb({ kind: 'no-answer', address: 0x20 });
  bus.start();
  expect(bus.address(0x20, true)).toBe(false);
  expect(bus.address(0x21, true)).toBe(true);
  bus.disturb({ kind: 'none' });
  expect(bus.address(0x20, true)).toBe(true);
});

test('a stuck chip repeats what it gave from each register', () => {
  const chip = new PlainChip(0x20);
  const bus = busWith(chip);
  chip.registers.set([1, 2]);
  readByte(bus, 0x20, 0);
  bus.disturb({ kind: 'stuck-value', address: 0x20 });
  chip.registers.set([11, 12]);
  expect(readByte(bus, 0x20, 0)).toBe(1);
  expect(readByte(bus, 0x20, 1)).toBe(12);
  chip.registers[1] = 13;
  expect(readByte(bus, 0x20, 1)).toBe(12);
  bus.disturb({ kind: 'none' });
  expect(readByte(bus, 0x20, 0)).toBe(11);
});

test('held data is freed by its number of pulses, and the lines are told', () => {
  const bus = busWith();
  let told = 0;
  bus.onLines = () => {
    told += 1;
  };
  bus.disturb({ kind: 'data-held', pulses: 2 });
  expect([bus.dataHeld, bus.free]).toEqual([true, false]);
  bus.clockPulse();
  expect(bus.dataHeld).toBe(true);
  bus.clockPulse();
  expect([bus.dataHeld, bus.free]).toEqual([false, true]);
  expect(told).toBe(2);
});

test('a held clock hears no pulses', () => {
  const bus = busWith();
  bus.disturb({ kind: 'clock-held' });
  bus.clockPulse();
  expect([bus.clockHeld, bus.free]).toEqual([true, false]);
});
