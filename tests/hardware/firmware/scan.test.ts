import { describe, expect, test } from 'vitest';
import { packBody } from '#device/bus/packed-body.ts';
import {
  BUS_BITS,
  clearMessage,
  nameMessage,
  queryMessage,
  type ScanReply,
  type ScanStep,
  startMessage,
  stepMessage,
  stepsCheck,
  stopMessage,
} from '#device/bus/scan-message.ts';
import { BoardHost, PlainChip, readStep } from '#tests/support/board-host.ts';

const ONE = 0x20;
const OTHER = 0x21;

function begun(...chips: PlainChip[]): BoardHost {
  const host = new BoardHost({ chips });
  host.run(1);
  host.messages();
  return host;
}

function identityOf(replies: readonly ScanReply[]) {
  const reply = replies.find(({ kind }) => kind === 'identity');
  if (reply?.kind !== 'identity') throw new Error('no identity was told');
  return reply.identity;
}

function stateOf(replies: readonly ScanReply[]) {
  const reply = replies.findLast(({ kind }) => kind === 'state');
  if (reply?.kind !== 'state') throw new Error('no state was told');
  return reply.state;
}

const writeStep = (address: number, when: ScanStep['when'], write: number[]): ScanStep => ({
  address,
  register: 1,
  readCount: 0,
  write,
  when,
  fromFrameBefore: false,
});

describe('rate', () => {
  test.each([20_000, 10_000, 5_000])('every %d us exactly, no hole', (periodUs) => {
    const chip = new PlainChip(ONE);
    const host = begun(chip, new PlainChip(OTHER));
    host.startScan(periodUs, [readStep(ONE, 0, 6), readStep(OTHER, 4, 4)]);
    host.run(10);
    const frames = host.frames();
    expect(frames.length).toBeGreaterThanOrEqual(Math.floor(9.9e6 / periodUs));
    frames.forEach((frame, index) => {
      expect(frame.sequence).toBe(index);
      expect(frame.boardUs).toBe(frames[0]!.boardUs + index * periodUs);
      expect(frame.failedSteps).toBe(0);
      expect(frame.leftOut).toBe(0);
      expect(frame.bytes.length).toBe(10);
    });
  });

  test('a frame carries what stood in the registers, in the order of the list', () => {
    const chip = new PlainChip(ONE);
    chip.registers.set([0x80, 0xff, 0x7f, 0x00], 8);
    const host = begun(chip);
    host.startScan(20_000, [readStep(ONE, 10, 1), readStep(ONE, 8, 4)]);
    host.run(0.1);
    expect([...host.frames()[0]!.bytes]).toEqual([0x7f, 0x80, 0xff, 0x7f, 0x00]);
  });

  test('a line too slow leaves frames out whole and counts them', () => {
    const chip = new PlainChip(ONE);
    const host = begun(chip);
    // 5 x 16 bytes every 5 ms are over the 11 500 bytes a second of the line.
    const steps = [0, 16, 32, 48, 64].map((register) => readStep(ONE, register, 16));
    host.startScan(5_000, steps);
    host.run(3);
    const frames = host.frames();
    const last = frames.at(-1)!;
    expect(last.leftOut).toBeGreaterThan(50);
    expect(last.sequence + 1).toBe(frames.length + last.leftOut);
    expect(frames.every(({ bytes }) => bytes.length === 80)).toBe(true);
    // Its round runs all the same.
    expect(chip.starts).toBeGreaterThanOrEqual(10 * last.sequence);
  });

  test('a round still running at the next tick delays it; ticks that pass meanwhile are left out and counted', () => {
    const host = begun(new PlainChip(ONE));
    // At 100 kHz four writes and a read are 2.6 ms of bus: over one period, under two, and the
    // frames are short enough for the line.
    const read: ScanStep = { ...readStep(ONE, 0, 1), fromFrameBefore: true };
    const writes = Array<ScanStep>(4).fill(writeStep(ONE, 'always', [1, 2, 3, 4]));
    host.sysex(...clearMessage());
    for (const step of [read, ...writes]) host.sysex(...stepMessage(step));
    host.sysex(0x0a, 3, ...packBody([0xd0, 0x07, 0, 0, 0]));
    host.run(1);
    const frames = host.frames();
    const last = frames.at(-1)!;
    expect(last.leftOut).toBeGreaterThan(0);
    expect(last.sequence + 1).toBe(frames.length + last.leftOut);
    for (const [index, frame] of frames.entries()) {
      expect(frame.boardUs).toBe(
        frames[0]!.boardUs + (frame.sequence - frames[0]!.sequence) * 2000,
      );
      // What the frame before should have set going was not, wherever a round was left out.
      const leftOutBefore = index === 0 || frame.sequence !== frames[index - 1]!.sequence + 1;
      expect(frame.bus).toBe(leftOutBefore ? BUS_BITS.frameBeforeLacked : 0);
      expect(frame.failedSteps).toBe(leftOutBefore ? 1 : 0);
    }
  });

  test('microseconds wrap after 71.6 minutes and the period stays exact', () => {
    const host = begun(new PlainChip(ONE));
    host.run(4290);
    host.startScan(100_000, [readStep(ONE, 0, 1)]);
    host.run(10);
    const frames = host.frames();
    expect(frames[0]!.boardUs).toBeGreaterThan(4_290_000_000);
    expect(frames.at(-1)!.boardUs).toBeLessThan(10_000_000);
    for (const [index, frame] of frames.entries()) {
      expect(frame.boardUs).toBe((frames[0]!.boardUs + index * 100_000) % 2 ** 32);
    }
  });
});

describe('steps', () => {
  const switched: ScanStep[] = [
    { ...readStep(ONE, 0, 2), fromFrameBefore: true },
    writeStep(ONE, 'even', [0xc3, 0x03]),
    writeStep(ONE, 'odd', [0xd3, 0x03]),
  ];

  test('even and odd frames write in turn', () => {
    const chip = new PlainChip(ONE);
    const host = begun(chip);
    host.startScan(20_000, switched);
    host.run(0.11);
    const written = chip.writes.filter((bytes) => bytes.length === 3);
    expect(written.slice(0, 4)).toEqual([
      [1, 0xc3, 0x03],
      [1, 0xd3, 0x03],
      [1, 0xc3, 0x03],
      [1, 0xd3, 0x03],
    ]);
  });

  test('what needs the frame before fails in the first frame, and after a frame whose start failed', () => {
    const host = begun(new PlainChip(ONE));
    host.startScan(20_000, switched);
    host.run(0.11);
    host.board.disturbBus({ kind: 'no-answer', address: ONE });
    host.run(0.04);
    host.board.disturbBus({ kind: 'none' });
    host.run(0.1);
    const failures = host.frames().map(({ failedSteps, bus }) => ({ failedSteps, bus }));
    expect(failures[0]).toEqual({ failedSteps: 1, bus: BUS_BITS.frameBeforeLacked });
    expect(failures[1]).toEqual({ failedSteps: 0, bus: 0 });
    const firstGood = failures.findIndex(
      ({ failedSteps, bus }, index) =>
        index > 1 && failedSteps === 1 && bus === BUS_BITS.frameBeforeLacked,
    );
    expect(failures[firstGood - 1]!.bus).toBe(BUS_BITS.addressNotAcknowledged);
    expect(failures[firstGood + 1]).toEqual({ failedSteps: 0, bus: 0 });
  });

  test('a chip that does not answer fails its own step only', () => {
    const there = new PlainChip(ONE);
    there.registers[0] = 5;
    const host = begun(there);
    host.startScan(20_000, [readStep(OTHER, 0, 2), readStep(ONE, 0, 1)]);
    host.run(0.1);
    const frame = host.frames()[0]!;
    expect(frame.failedSteps).toBe(1);
    expect(frame.bus).toBe(BUS_BITS.addressNotAcknowledged);
    expect([...frame.bytes]).toEqual([0, 0, 5]);
  });

  test('the state repeats the list, and a stop ends the frames', () => {
    const host = begun(new PlainChip(ONE));
    host.startScan(20_000, switched);
    host.run(0.1);
    const state = stateOf(host.heard().scan);
    expect(state).toEqual({
      state: 0,
      steps: 3,
      stepsCheck: stepsCheck(switched),
      periodUs: 20_000,
    });
    host.sysex(...stopMessage());
    host.run(0.1);
    expect(stateOf(host.heard().scan).state).toBe(1);
    host.run(0.2);
    expect(host.messages()).toEqual([]);
  });

  test.each([
    ['no step', [], 20_000, 2],
    ['an address outside 7 bits', [[0x80, 3, 0, 1, 0]], 20_000, 3],
    ['no phase', [[ONE, 0, 0, 1, 0]], 20_000, 3],
    ['an unknown option', [[ONE, 0x23, 0, 1, 0]], 20_000, 3],
    ['too many bytes in a step', [[ONE, 3, 0, 33, 0]], 20_000, 3],
    ['too many bytes in a frame', Array(4).fill([ONE, 3, 0, 32, 0]), 20_000, 3],
    ['too many bytes to write', [[ONE, 3, 0, 0, 5, 1, 2, 3, 4, 5]], 20_000, 3],
    ['fewer bytes than said', [[ONE, 3, 0, 0, 2, 1]], 20_000, 3],
    ['too many steps', Array(17).fill([ONE, 3, 0, 1, 0]), 20_000, 3],
    ['a period too short', [[ONE, 3, 0, 1, 0]], 1999, 4],
    ['a period too long', [[ONE, 3, 0, 1, 0]], 10_000_001, 4],
  ])('a list with %s does not start', (_, bodies: number[][], periodUs, state) => {
    const host = begun(new PlainChip(ONE));
    host.sysex(...clearMessage());
    for (const body of bodies) host.sysex(0x0a, 2, ...packBody(body));
    host.sysex(...startMessage(periodUs));
    host.run(0.2);
    const { scan, strings } = host.heard();
    expect(stateOf(scan).state).toBe(state);
    expect(scan.filter(({ kind }) => kind === 'frame')).toEqual([]);
    expect(strings.includes('scan: refused')).toBe(state === 3);
  });

  test('a body with one wrong bit is refused', () => {
    const host = begun(new PlainChip(ONE));
    const message = stepMessage(readStep(ONE, 0, 1));
    message[3] = message[3]! ^ 1;
    host.sysex(...clearMessage());
    host.sysex(...message);
    host.sysex(...startMessage(20_000));
    host.run(0.2);
    const { scan, strings } = host.heard();
    expect(strings).toEqual(['scan: refused']);
    expect(stateOf(scan).state).toBe(3);
  });
});

describe('bus that hangs', () => {
  function scanning(): BoardHost {
    const chip = new PlainChip(ONE);
    chip.registers[0] = 7;
    const host = begun(chip);
    host.startScan(20_000, [readStep(ONE, 0, 1), readStep(ONE, 0, 1)]);
    host.run(0.11);
    host.frames();
    return host;
  }

  test.each([1, 5, 9])('SDA held for %d pulses is freed within a frame', (pulses) => {
    const host = scanning();
    host.board.disturbBus({ kind: 'data-held', pulses });
    host.run(0.1);
    const frames = host.frames();
    expect(frames.map(({ sequence }) => sequence)).toEqual([5, 6, 7, 8, 9]);
    expect(frames[0]!.bus).toBe(BUS_BITS.dataFreed);
    expect(frames.map(({ failedSteps }) => failedSteps)).toEqual([0, 0, 0, 0, 0]);
    expect(frames.slice(1).every(({ bus }) => bus === 0)).toBe(true);
  });

  test.each([
    { kind: 'data-held', pulses: Number.POSITIVE_INFINITY } as const,
    { kind: 'clock-held' } as const,
  ])('a line held for ever ($kind) fails the steps, never the board', (fault) => {
    const host = scanning();
    host.board.disturbBus(fault);
    host.run(0.2);
    const held = host.frames();
    expect(held.length).toBe(10);
    for (const frame of held) {
      expect(frame.failedSteps).toBe(3);
      expect(frame.bus & BUS_BITS.stillHeld).toBe(BUS_BITS.stillHeld);
      expect(frame.durationUs).toBeLessThan(5000);
    }
    host.board.disturbBus({ kind: 'none' });
    host.run(0.1);
    const after = host.frames();
    expect(after.at(-1)).toMatchObject({ failedSteps: 0, bus: 0, leftOut: 0 });
    expect([...after.at(-1)!.bytes]).toEqual([7, 7]);
  });
});

describe('identity', () => {
  test('is drawn at the first start, differs from board to board, and outlives power', () => {
    const identities = [1, 2, 3].map((seed) => {
      const host = new BoardHost({ seed });
      host.run(1);
      host.sysex(...queryMessage());
      host.run(0.1);
      return { host, identity: identityOf(host.heard().scan) };
    });
    const names = identities.map(({ identity }) => identity.board);
    expect(new Set(names).size).toBe(3);
    expect(identities[0]!.identity).toMatchObject({ resetCounter: 1, startCause: 1, name: '' });

    const again = new BoardHost({ seed: 9, eeprom: identities[0]!.host.board.eepromImage() });
    again.run(1);
    again.sysex(...queryMessage());
    again.run(0.1);
    expect(identityOf(again.heard().scan)).toMatchObject({ board: names[0], resetCounter: 2 });
  });

  test('a name and another identity are kept', () => {
    const host = begun();
    host.sysex(...nameMessage('port locker'));
    host.run(0.5);
    host.sysex(0x0a, 6, ...packBody([1, 2, 3, 4, 5, 6, 7, 8]));
    host.run(0.5);
    host.board.reset();
    host.run(0.5);
    host.heard();
    host.sysex(...queryMessage());
    host.run(0.1);
    expect(identityOf(host.heard().scan)).toMatchObject({
      board: '0102030405060708',
      name: 'port locker',
      resetCounter: 2,
      startCause: 2,
    });
  });

  test('the counter survives forty starts and the loss of its newest place', () => {
    const host = begun();
    for (let start = 0; start < 39; start++) {
      host.board.reset();
      host.run(0.3);
    }
    const image = host.board.eepromImage();
    const counterAfterLossOf = (place: number | null): number => {
      const eeprom = image.slice();
      if (place !== null) eeprom.fill(0x55, 32 + 6 * place, 32 + 6 * place + 6);
      const next = new BoardHost({ eeprom });
      next.run(0.5);
      next.sysex(...queryMessage());
      next.run(0.1);
      return identityOf(next.heard().scan).resetCounter;
    };
    expect(counterAfterLossOf(null)).toBe(41);
    // Start number 40 stands in place 39 modulo 16; without it 39 is the newest.
    expect(counterAfterLossOf(39 % 16)).toBe(40);
  });
});
