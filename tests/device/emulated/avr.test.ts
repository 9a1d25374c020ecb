import { expect, test } from 'vitest';
import { createRandom } from '#core/numerics/random.ts';
import { Avr, FLASH_BYTES, RESET_CAUSE } from '#device/emulated/avr.ts';
import { Eeprom } from '#device/emulated/eeprom.ts';
import { I2cBus } from '#device/emulated/i2c.ts';

/** Instructions by hand: AVR instruction set manual. */
const ldi = (register: number, value: number): number =>
  0xe000 | ((value & 0xf0) << 4) | ((register - 16) << 4) | (value & 0x0f);
const sts = (address: number, register: number): number[] => [0x9200 | (register << 4), address];
const out = (io: number, register: number): number =>
  0xb800 | ((io & 0x30) << 5) | (register << 4) | (io & 0x0f);
const inc = (register: number): number => 0x9403 | (register << 4);
const SEI = 0x9478;
const SLEEP = 0x9588;
const RETI = 0x9518;
const RJMP_BACK = (words: number): number => 0xc000 | (-(words + 1) & 0x0fff);

const SMCR_IO = 0x33;
const PORTB_IO = 0x05;
const DDRB_IO = 0x04;

/** Main program at 0x40; timer 1 compare A counts interrupts in r20 and shows them on port B. */
function program(main: number[]): Uint16Array {
  const flash = new Uint16Array(FLASH_BYTES / 2);
  flash[0] = 0xc000 | 0x3f;
  flash.set([inc(20), out(PORTB_IO, 20), RETI], 0x16);
  flash.set(main, 0x40);
  return flash;
}

function start(main: number[]): Avr {
  return new Avr({
    flash: program(main),
    eeprom: new Eeprom(),
    bus: new I2cBus([], () => 0),
    random: createRandom(1),
    onByte: () => undefined,
  });
}

const TIMER_EVERY_1000 = [
  ldi(16, 0xff),
  out(DDRB_IO, 16),
  ldi(16, 3),
  ...sts(0x89, 16),
  ldi(16, 0xe7),
  ...sts(0x88, 16), // OCR1A = 999
  ldi(16, 0x02),
  ...sts(0x6f, 16), // compare A interrupt
  ldi(16, 0x09),
  ...sts(0x81, 16), // clear on compare, no divider
];
const SLEEPING = [ldi(16, 1), out(SMCR_IO, 16), SEI, SLEEP, RJMP_BACK(2)];

function shown(avr: Avr): number {
  return [8, 9, 10, 11, 12, 13].reduce(
    (sum, pin, bit) => sum + (avr.drivesHigh(pin) ? 1 << bit : 0),
    0,
  );
}

test('a sleeping program is skipped over, and wakes for each interrupt', () => {
  const avr = start([...TIMER_EVERY_1000, ...SLEEPING]);
  avr.run(50_500);
  expect(shown(avr)).toBe(50);
  expect(avr.skippedCycles).toBeGreaterThan(45_000);
  expect(avr.cycles).toBeGreaterThanOrEqual(50_500);
  expect(avr.cycles).toBeLessThan(50_504);
});

test('without SE the instruction does nothing', () => {
  const avr = start([...TIMER_EVERY_1000, SEI, SLEEP, RJMP_BACK(2)]);
  avr.run(50_500);
  expect(shown(avr)).toBe(50);
  expect(avr.skippedCycles).toBe(0);
});

test('the instruction after SEI comes before an interrupt that waits', () => {
  // The interrupt is pending when SEI runs; were it served at once, the program would then sleep
  // with nothing left to wake it. Here the SLEEP comes first and is woken at once.
  const wait = Array<number>(2000).fill(0x0000);
  const only = [ldi(16, 0), ...sts(0x6f, 16)]; // after the first wake: no more interrupts
  const avr = start([
    ...TIMER_EVERY_1000,
    ...wait,
    ldi(16, 1),
    out(SMCR_IO, 16),
    SEI,
    SLEEP,
    ...only,
    ldi(20, 0x3f),
    out(PORTB_IO, 20),
    RJMP_BACK(0),
  ]);
  avr.run(2100);
  expect(shown(avr)).toBe(0x3f);
});

test('a reset begins anew at cycle counts that go on, and a hung program is whole again', () => {
  const avr = start([...TIMER_EVERY_1000, ...SLEEPING]);
  avr.run(10_500);
  avr.hang();
  const before = avr.cycles;
  avr.run(20_500);
  avr.reset(RESET_CAUSE.pin);
  expect(avr.cycles).toBeGreaterThan(before);
  expect(shown(avr)).toBe(0);
  avr.run(25_800);
  expect(shown(avr)).toBe(5);
});
