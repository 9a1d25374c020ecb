import { beforeEach, describe, expect, test } from 'vitest';
import { Watchdog } from '#device/emulated/watchdog.ts';
import { BareProcessor } from '#tests/support/bare-processor.ts';

const WDTCSR = 0x60;
const MCUSR = 0x54;
const MS = 16_000;

let avr: BareProcessor;
let resets: number;

function attach(jitter = 0): void {
  resets = 0;
  new Watchdog(avr.cpu, {
    frequencyHz: 16_000_000,
    onReset: () => {
      resets += 1;
    },
    jitter: () => jitter,
  });
}

beforeEach(() => {
  avr = new BareProcessor();
});

/** The timed sequence of the data sheet. */
function set(value: number): void {
  avr.write(WDTCSR, 0x18);
  avr.write(WDTCSR, value);
}

describe('a watchdog that resets', () => {
  beforeEach(() => {
    attach();
    set(0x08 | 5); // half a second
  });

  test('does so after its time, and not while it is fed', () => {
    avr.pass(511 * MS);
    avr.cpu.onWatchdogReset();
    avr.pass(511 * MS);
    expect(resets).toBe(0);
    avr.pass(2 * MS);
    expect(resets).toBe(1);
  });

  test('is not stopped by a write without the sequence, or too late in it', () => {
    avr.pass(10);
    avr.write(WDTCSR, 0);
    avr.write(WDTCSR, 0x18);
    avr.pass(5);
    avr.write(WDTCSR, 0);
    avr.pass(600 * MS);
    expect(resets).toBe(1);
  });

  test('is stopped by the sequence', () => {
    set(0);
    avr.pass(5000 * MS);
    expect(resets).toBe(0);
  });
});

test('as an interrupt it comes again and again, its period with the jitter of its oscillator', () => {
  attach(0.01);
  set(0x40);
  avr.pass(16 * MS);
  expect(avr.pending).toBe(-1);
  avr.pass(0.2 * MS);
  expect(avr.pending).toBe(0x0c);
  expect(resets).toBe(0);
});

test('after a watchdog reset it runs on at 16 ms until the cause is cleared and it is stopped', () => {
  avr.cpu.data[MCUSR] = 0x08;
  attach();
  set(0);
  avr.pass(15 * MS);
  expect(resets).toBe(0);
  avr.pass(2 * MS);
  expect(resets).toBe(1);
  avr.cpu.data[MCUSR] = 0;
  set(0);
  avr.pass(100 * MS);
  expect(resets).toBe(1);
});
