import { readFileSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import {
  clearMessage,
  readScanReply,
  startMessage,
  stepMessage,
} from '#device/bus/scan-message.ts';
import { BoardHost, PlainChip, readStep } from '#tests/support/board-host.ts';

/** The example a stranger would write a host by, held against the codec and the board itself. */
const text = readFileSync(new URL('../../../hardware/firmware/README.md', import.meta.url), 'utf8');
let host: number[][];
let board: number[][];

function lines(from: string): number[][] {
  return [...text.matchAll(new RegExp(`^${from} +F0 (.+) F7$`, 'gm'))].map((match) =>
    match[1]!.split(' ').map((byte) => Number.parseInt(byte, 16)),
  );
}

beforeAll(() => {
  host = lines('host');
  board = lines('board');
});

test('what the host sends is what our host sends', () => {
  expect(host).toEqual([
    clearMessage(),
    stepMessage(readStep(0x6a, 0x28, 4)),
    startMessage(20_000),
  ]);
});

test('what the board answers is what it answers, and reads as told', () => {
  const chip = new PlainChip(0x6a);
  chip.registers.set([0x8b, 0x04, 0x2f, 0xf9], 0x28);
  const real = new BoardHost({ chips: [chip] });
  real.run(1);
  real.messages();
  for (const message of host) real.sysex(...message);
  real.run(0.05);
  const [state, frame] = real.messages().map((message) => message.slice(1, -1));
  expect(board[0]).toEqual(state);
  // The board's time and identity are its own; all else is the same.
  const told = readScanReply(board[1]!.slice(1), 'README');
  const seen = readScanReply(frame!.slice(1), 'board');
  if (told.kind !== 'frame' || seen.kind !== 'frame') throw new Error('not frames');
  const { boardUs, boardStart, durationUs } = told.frame;
  expect({ ...seen.frame, boardUs, boardStart, durationUs }).toEqual(told.frame);
  expect(told.frame).toMatchObject({
    sequence: 0,
    boardUs: 1_022_172,
    durationUs: 242,
    failedSteps: 0,
    leftOut: 0,
    bus: 0,
    boardStart: 'c492',
    resetCounterLow: 1,
  });
  expect([...told.frame.bytes]).toEqual([0x8b, 0x04, 0x2f, 0xf9]);
});

test('every source file stands in the table', () => {
  const makefile = readFileSync(
    new URL('../../../hardware/firmware/Makefile', import.meta.url),
    'utf8',
  );
  const sources = /^SOURCES = (.+)$/m.exec(makefile)![1]!.split(' ');
  expect(sources.filter((source) => !text.includes(`\`${source}\``))).toEqual([]);
});
