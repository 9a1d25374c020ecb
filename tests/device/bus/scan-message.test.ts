import { describe, expect, it } from 'vitest';
import { Fault } from '#core/fault/fault.ts';
import { packBody } from '#device/bus/packed-body.ts';
import {
  clearMessage,
  nameMessage,
  queryMessage,
  readScanReply,
  startMessage,
  stepMessage,
  stepsCheck,
} from '#device/bus/scan-message.ts';

const STEP = {
  address: 0x48,
  register: 1,
  readCount: 2,
  write: [0xc3, 0x83],
  when: 'odd',
  fromFrameBefore: true,
} as const;

describe('scan messages to the board', () => {
  it('carry a step as address, options, register, counts, bytes', () => {
    // Options: bit 1 odd, bit 2 from the frame before (hardware/firmware/README.md, "Step").
    expect(stepMessage(STEP)).toEqual([0x0a, 2, ...packBody([0x48, 0b110, 1, 2, 2, 0xc3, 0x83])]);
    expect(stepMessage({ ...STEP, when: 'always', fromFrameBefore: false, write: [] })).toEqual([
      0x0a,
      2,
      ...packBody([0x48, 0b011, 1, 2, 0]),
    ]);
  });

  it('start with period and bus clock, query and clear without a body', () => {
    expect(startMessage(20_000)).toEqual([0x0a, 3, ...packBody([0x20, 0x4e, 0, 0, 1])]);
    expect(queryMessage()).toEqual([0x0a, 0]);
    expect(clearMessage()).toEqual([0x0a, 1]);
  });

  it('name a board in at most sixteen plain characters', () => {
    expect(nameMessage('aft box')).toEqual([0x0a, 5, ...packBody([...Buffer.from('aft box')])]);
    expect(() => nameMessage('seventeen letters')).toThrow(RangeError);
    expect(() => nameMessage('bö')).toThrow(RangeError);
  });
});

describe('scan messages from the board', () => {
  it('say who it is', () => {
    const body = [
      1, 1, 2, 3, 4, 5, 6, 7, 8, 9, 1, 0, 0, 4, 3, 0x20, 0x4e, 0, 0, 0, 0, 0, 0, 3, 97, 102, 116,
    ];
    expect(readScanReply([0x40, ...packBody(body)], 'port')).toEqual({
      kind: 'identity',
      identity: { board: '0102030405060708', resetCounter: 265, startCause: 4, name: 'aft' },
    });
  });

  it('say how the scan stands, with the check of the list', () => {
    const check = stepsCheck([STEP, STEP]);
    const body = [0, 2, 4, 4, check & 0xff, check >> 8, 0x20, 0x4e, 0, 0];
    expect(readScanReply([0x41, ...packBody(body)], 'port')).toEqual({
      kind: 'state',
      state: { state: 0, steps: 2, stepsCheck: check, periodUs: 20_000 },
    });
  });

  it('bring a frame with its counters', () => {
    const body = [
      0xfe, 0xff, 0xff, 0xff, 0xff, 0xff, 0x4c, 0x04, 2, 0, 7, 0, 1, 0x0a, 0x0b, 5, 0, 9, 8,
    ];
    expect(readScanReply([0x42, ...packBody(body)], 'port')).toEqual({
      kind: 'frame',
      frame: {
        sequence: 65_534,
        boardUs: 4_294_967_295,
        durationUs: 1100,
        failedSteps: 2,
        leftOut: 7,
        bus: 1,
        boardStart: '0a0b',
        resetCounterLow: 5,
        bytes: Uint8Array.of(9, 8),
      },
    });
  });

  it.each([
    ['of an unknown kind', [0x43, ...packBody([1])]],
    ['without a body', [0x42]],
    ['too short for a frame', [0x42, ...packBody([1, 2, 3])]],
    ['of another version', [0x40, ...packBody([2, ...new Array<number>(23).fill(0)])]],
    [
      'with a name longer than the message',
      [0x40, ...packBody([1, ...new Array<number>(22).fill(0), 9])],
    ],
  ])('are refused %s', (_, data) => {
    expect(() => readScanReply(data, 'port')).toThrow(Fault);
  });
});
