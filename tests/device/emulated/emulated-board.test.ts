import { expect, test } from 'vitest';
import { queryMessage } from '#device/bus/scan-message.ts';
import { EmulatedBoard } from '#device/emulated/emulated-board.ts';
import { firmwareImage } from '#device/emulated/firmware-image.ts';
import { MOST_WAITING_BYTES } from '#device/emulated/uart.ts';
import { BoardHost, PlainChip, readStep } from '#tests/support/board-host.ts';

function boardUsAt(clockErrorPpm: number, seconds: number): number {
  const host = new BoardHost({ clockErrorPpm });
  host.run(seconds);
  host.messages();
  // The board's own microseconds stand at bytes 19 to 22 of its identity; a query is answered at once.
  host.sysex(...queryMessage());
  host.run(0.02);
  const message = host.messages().find(([, kind]) => kind === 0x0a)!;
  let row = 0n;
  message.slice(3, -1).forEach((group, index) => {
    row |= BigInt(group) << BigInt(7 * index);
  });
  return Number((row >> (19n * 8n)) & 0xffffffffn);
}

test('its clock runs fast or slow by its error, exactly', () => {
  const exact = boardUsAt(0, 100);
  expect(exact).toBeGreaterThan(99_999_000);
  expect(exact).toBeLessThan(100_001_000);
  for (const ppm of [5000, -5000, 137]) {
    const expected = exact + 100 * ppm;
    expect(Math.abs(boardUsAt(ppm, 100) - expected)).toBeLessThan(20);
  }
});

test('outgoing bytes carry the second their run was whole, a frame in one or two runs', () => {
  const board = new EmulatedBoard({
    hex: firmwareImage(),
    seed: 1,
    clockErrorPpm: 0,
    chips: [],
  });
  board.runTo(1);
  const [first, ...rest] = board.takeOutgoing();
  expect(rest).toEqual([]);
  expect([...first!.bytes.subarray(0, 3)]).toEqual([0xf9, 2, 6]);
  board.receive(Uint8Array.of(0xf9));
  board.runTo(2);
  const [answer] = board.takeOutgoing();
  // One byte in and three out at 117647 baud are 340 us; the firmware takes some of its own.
  expect(answer!.atS - 1).toBeGreaterThan(340e-6);
  expect(answer!.atS - 1).toBeLessThan(500e-6);
});

test('without power nothing runs, nothing is heard, and it starts anew with power', () => {
  const chip = new PlainChip(0x20);
  chip.registers[0] = 9;
  const host = new BoardHost({ chips: [chip] });
  host.run(1);
  host.startScan(20_000, [readStep(0x20, 0, 1)]);
  host.run(0.5);
  host.board.cutPower();
  host.messages();
  host.sysex(...queryMessage());
  host.run(5);
  expect(host.messages()).toEqual([]);
  host.board.restorePower();
  expect(chip.registers[0]).toBe(0);
  host.run(0.5);
  host.sysex(...queryMessage());
  host.run(0.1);
  const { scan, other } = host.heard();
  expect(other[0]).toEqual([0xf9, 2, 6]);
  expect(scan).toMatchObject([{ kind: 'identity', identity: { resetCounter: 2, startCause: 1 } }]);
});

test('time does not go back', () => {
  const host = new BoardHost();
  host.run(1);
  host.board.runTo(0.5);
  expect(host.board.reachedS).toBe(1);
});

test.each([5001, -5001, Number.NaN])('refuses a clock error of %d ppm', (clockErrorPpm) => {
  expect(() => new BoardHost({ clockErrorPpm })).toThrow(RangeError);
});

test('a host that writes without end is stopped', () => {
  const host = new BoardHost();
  expect(() => host.board.receive(new Uint8Array(MOST_WAITING_BYTES + 1))).toThrow(RangeError);
});
