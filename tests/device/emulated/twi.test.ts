import { beforeEach, expect, test } from 'vitest';
import { Twi, type TwiBus } from '#device/emulated/twi.ts';
import { BareProcessor } from '#tests/support/bare-processor.ts';

/** ATmega328P data sheet, "2-wire Serial Interface": registers and status codes. */
const TWBR = 0xb8;
const TWSR = 0xb9;
const TWDR = 0xbb;
const TWCR = 0xbc;
const GO = 0x84;
const ACK = 0x40;
const START = 0x20;
const STOP = 0x10;
/** 400 kHz: 16 + 2 x 12 cycles a bit. */
const BIT_CYCLES = 40;

let avr: BareProcessor;
let log: string[];
let free: boolean;

beforeEach(() => {
  avr = new BareProcessor();
  log = [];
  free = true;
  const bus: TwiBus = {
    get free() {
      return free;
    },
    start: () => log.push('start'),
    stop: () => log.push('stop'),
    address: (address, write) => {
      log.push(`${write ? 'write' : 'read'} ${address}`);
      return address === 0x6a;
    },
    write: (byte) => {
      log.push(`byte ${byte}`);
      return byte < 0x80;
    },
    read: () => 0x5a,
  };
  new Twi(avr.cpu, bus);
  avr.write(TWBR, 12);
});

function go(control: number, cycles = 9 * BIT_CYCLES): number {
  avr.write(TWCR, control);
  avr.pass(cycles);
  return avr.read(TWSR);
}

function address(byte: number): number {
  go(GO | START);
  avr.write(TWDR, byte);
  return go(GO);
}

test('a write and a repeated start, each in its bus time', () => {
  expect(go(GO | START, BIT_CYCLES - 1)).toBe(0xf8);
  avr.pass(1);
  expect(avr.read(TWSR)).toBe(0x08);
  avr.write(TWDR, 0x6a << 1);
  expect(go(GO, 9 * BIT_CYCLES - 1)).toBe(0x08);
  avr.pass(1);
  expect(avr.read(TWSR)).toBe(0x18);
  avr.write(TWDR, 0x28);
  expect(go(GO)).toBe(0x28);
  expect(go(GO | START)).toBe(0x10);
  avr.write(TWDR, (0x6a << 1) | 1);
  expect(go(GO)).toBe(0x40);
  expect(go(GO | ACK)).toBe(0x50);
  expect(avr.read(TWDR)).toBe(0x5a);
  expect(go(GO)).toBe(0x58);
  avr.write(TWCR, GO | STOP);
  expect(avr.read(TWCR) & STOP).toBe(STOP);
  avr.pass(BIT_CYCLES);
  expect(avr.read(TWCR) & STOP).toBe(0);
  expect(avr.read(TWSR)).toBe(0xf8);
  expect(log).toEqual(['start', 'write 106', 'byte 40', 'start', 'read 106', 'stop']);
});

test('what is not acknowledged', () => {
  expect(address(0x20 << 1)).toBe(0x20);
  go(GO | STOP);
  expect(address((0x20 << 1) | 1)).toBe(0x48);
  go(GO | STOP);
  address(0x6a << 1);
  avr.write(TWDR, 0x90);
  expect(go(GO)).toBe(0x30);
});

test('the program cannot overwrite the status', () => {
  address(0x6a << 1);
  avr.write(TWSR, 0);
  expect(avr.read(TWSR)).toBe(0x18);
  avr.write(TWSR, 1);
  expect(avr.read(TWSR)).toBe(0x19);
});

test('stop and start in one', () => {
  address(0x6a << 1);
  expect(go(GO | STOP | START, 2 * BIT_CYCLES)).toBe(0x08);
  expect(log.slice(-2)).toEqual(['stop', 'start']);
});

test('the interrupt stays until the flag is cleared', () => {
  go(GO | START | 1);
  expect(avr.pending).toBe(0x30);
  avr.write(TWCR, 0x05);
  expect(avr.pending).toBe(0x30);
  avr.write(TWCR, GO);
  expect(avr.pending).toBe(-1);
});

test('on a held bus nothing completes until it is switched off and on', () => {
  free = false;
  expect(go(GO | START | 1, 1_000_000)).toBe(0xf8);
  expect(avr.pending).toBe(-1);
  free = true;
  avr.pass(1_000_000);
  expect(avr.pending).toBe(-1);
  avr.write(TWCR, 0);
  expect(go(GO | START)).toBe(0x08);
});
