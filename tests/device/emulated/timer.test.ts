import { beforeEach, describe, expect, test } from 'vitest';
import { LazyTimer, TIMER_0, TIMER_1 } from '#device/emulated/timer.ts';
import { BareProcessor } from '#tests/support/bare-processor.ts';

const { TCCRA, TCCRB, TCNT, OCRA, OCRB, TIMSK, TIFR } = TIMER_1;
const EIGHTH = 2;
let avr: BareProcessor;

beforeEach(() => {
  avr = new BareProcessor();
});

function read16(register: number): number {
  return avr.read(register) | (avr.read(register + 1) << 8);
}

function write16(register: number, value: number): void {
  avr.write(register + 1, value >> 8);
  avr.write(register, value & 0xff);
}

describe('timer 1, running freely at an eighth of the clock', () => {
  beforeEach(() => {
    new LazyTimer(avr.cpu, TIMER_1);
    avr.write(TCCRB, EIGHTH);
  });

  test('counts, both bytes of one moment', () => {
    avr.pass(8 * 0x12ff);
    const low = avr.read(TCNT);
    avr.pass(8);
    expect(low | (avr.read(TCNT + 1) << 8)).toBe(0x12ff);
    expect(read16(TCNT)).toBe(0x1300);
  });

  test('overflows every 65536 counts, to the cycle', () => {
    avr.write(TIMSK, 1);
    avr.pass(8 * 65_536 - 1);
    expect(avr.read(TIFR) & 1).toBe(0);
    avr.pass(1);
    expect(avr.read(TIFR) & 1).toBe(1);
    expect(avr.pending).toBe(TIMER_1.vectors.overflow);
    avr.write(TIFR, 1);
    expect(avr.pending).toBe(-1);
    avr.pass(8 * 65_536);
    expect(avr.pending).toBe(TIMER_1.vectors.overflow);
  });

  test('compares once a round, and goes on from a count that is written', () => {
    avr.write(TIMSK, 6);
    write16(OCRA, 1000);
    write16(OCRB, 1000);
    avr.pass(8 * 1000);
    expect(avr.read(TIFR)).toBe(6);
    avr.write(TIFR, 6);
    write16(TCNT, 999);
    avr.pass(7);
    expect(avr.read(TIFR)).toBe(0);
    avr.pass(1);
    expect(avr.read(TIFR)).toBe(6);
  });

  test('a compare value that has gone by comes in the next round', () => {
    avr.pass(8 * 1000);
    avr.write(TIMSK, 2);
    write16(OCRA, 999);
    avr.pass(8 * 65_534);
    expect(avr.read(TIFR)).toBe(0);
    avr.pass(8);
    expect(avr.read(TIFR)).toBe(2);
  });

  test('asks for no moment while no interrupt is enabled', () => {
    expect(avr.cpu['nextClockEvent']).toBeNull();
    avr.write(TIMSK, 1);
    expect(avr.cpu['nextClockEvent']).not.toBeNull();
    avr.write(TIMSK, 0);
    expect(avr.cpu['nextClockEvent']).toBeNull();
  });

  test('stands when it is stopped', () => {
    avr.pass(800);
    avr.write(TCCRB, 0);
    avr.pass(800);
    expect(read16(TCNT)).toBe(100);
    avr.write(TCCRB, EIGHTH);
    avr.pass(80);
    expect(read16(TCNT)).toBe(110);
  });

  test('clears on compare when told to', () => {
    avr.write(TCCRA, 0);
    avr.write(TCCRB, 0x08 | EIGHTH);
    avr.write(TIMSK, 2);
    write16(OCRA, 99);
    avr.pass(8 * 250);
    expect(read16(TCNT)).toBe(50);
    expect(avr.read(TIFR)).toBe(2);
  });
});

test('timer 0 beats a thousand times a second', () => {
  new LazyTimer(avr.cpu, TIMER_0);
  avr.write(TIMER_0.TCCRA, 2);
  avr.write(TIMER_0.OCRA, 249);
  avr.write(TIMER_0.TCCRB, 3);
  avr.write(TIMER_0.TIMSK, 2);
  avr.pass(15_999);
  expect(avr.read(TIMER_0.TCNT)).toBe(249);
  let beats = 0;
  for (let ms = 0; ms < 1000; ms++) {
    avr.pass(16_000);
    if (avr.read(TIMER_0.TIFR) & 2) beats += 1;
    avr.write(TIMER_0.TIFR, 2);
  }
  expect(beats).toBe(1000);
});
