import { beforeEach, expect, test } from 'vitest';
import { MOST_WAITING_BYTES, Uart } from '#device/emulated/uart.ts';
import { BareProcessor } from '#tests/support/bare-processor.ts';

/** ATmega328P data sheet, register summary. */
const UCSRA = 0xc0;
const UCSRB = 0xc1;
const UBRRL = 0xc4;
const UDR = 0xc6;
const RXC = 0x80;
const TXC = 0x40;
const UDRE = 0x20;
const DOR = 0x08;
/** 16 MHz / 8 / 17, ten bits. */
const BYTE_CYCLES = 17 * 8 * 10;

let avr: BareProcessor;
let uart: Uart;
let said: { byte: number; cycle: number }[];

beforeEach(() => {
  avr = new BareProcessor();
  said = [];
  uart = new Uart(avr.cpu, (byte) => said.push({ byte, cycle: avr.cpu.cycles }));
  avr.write(UCSRA, 0x02);
  avr.write(UBRRL, 16);
  avr.write(UCSRB, 0x18);
});

test('sends one byte and holds a second, at the pace of the divisor', () => {
  expect(avr.read(UCSRA) & UDRE).toBe(UDRE);
  avr.write(UDR, 1);
  expect(avr.read(UCSRA) & UDRE).toBe(UDRE);
  avr.write(UDR, 2);
  expect(avr.read(UCSRA) & UDRE).toBe(0);
  avr.pass(BYTE_CYCLES);
  expect(avr.read(UCSRA) & (UDRE | TXC)).toBe(UDRE);
  avr.pass(BYTE_CYCLES);
  expect(avr.read(UCSRA) & (UDRE | TXC)).toBe(UDRE | TXC);
  expect(said).toEqual([
    { byte: 1, cycle: BYTE_CYCLES },
    { byte: 2, cycle: 2 * BYTE_CYCLES },
  ]);
});

test('receives byte after byte', () => {
  uart.receive(Uint8Array.of(7, 8));
  avr.pass(BYTE_CYCLES - 1);
  expect(avr.read(UCSRA) & RXC).toBe(0);
  avr.pass(1);
  expect(avr.read(UCSRA) & RXC).toBe(RXC);
  expect(avr.read(UDR)).toBe(7);
  expect(avr.read(UCSRA) & RXC).toBe(0);
  avr.pass(BYTE_CYCLES);
  expect(avr.read(UDR)).toBe(8);
});

test('a waiting byte survives writes of the control register', () => {
  uart.receive(Uint8Array.of(7));
  avr.pass(BYTE_CYCLES);
  avr.write(UCSRB, 0xb8);
  expect(avr.pending).toBe(0x24);
  avr.write(UCSRB, 0x98);
  expect(avr.read(UCSRA) & RXC).toBe(RXC);
  expect(avr.read(UDR)).toBe(7);
  expect(avr.pending).toBe(-1);
});

test('two bytes wait, a third is lost and the overrun is told', () => {
  uart.receive(Uint8Array.of(1, 2, 3, 4));
  avr.pass(3 * BYTE_CYCLES);
  expect(avr.read(UCSRA) & DOR).toBe(DOR);
  expect(avr.read(UDR)).toBe(1);
  avr.pass(BYTE_CYCLES);
  expect([avr.read(UDR), avr.read(UDR)]).toEqual([2, 4]);
  expect(avr.read(UCSRA) & (DOR | RXC)).toBe(0);
});

test('writing the status register leaves flags as they are but the one that is cleared so', () => {
  avr.write(UDR, 1);
  avr.pass(BYTE_CYCLES);
  avr.write(UCSRA, 0x02);
  expect(avr.read(UCSRA)).toBe(UDRE | TXC | 0x02);
  avr.write(UCSRA, TXC | 0x02);
  expect(avr.read(UCSRA)).toBe(UDRE | 0x02);
});

test('bytes wait for the receiver to be switched on', () => {
  avr.write(UCSRB, 0x08);
  uart.receive(Uint8Array.of(9));
  avr.pass(10 * BYTE_CYCLES);
  expect(uart.waitingBytes).toBe(1);
  avr.write(UCSRB, 0x18);
  avr.pass(BYTE_CYCLES);
  expect(avr.read(UDR)).toBe(9);
});

test('a host that writes without end is stopped', () => {
  uart.receive(new Uint8Array(MOST_WAITING_BYTES));
  expect(() => uart.receive(Uint8Array.of(1, 2))).toThrow(RangeError);
});
