import firmataIo from 'firmata-io';
import five from 'johnny-five';
import { afterEach, describe, expect, test } from 'vitest';
import { clearMessage, queryMessage, startMessage, stepMessage } from '#device/bus/scan-message.ts';
import type { Transport, VirtualRig } from '#device/emulated/rig-types.ts';
import { ALL_QUIET } from '#device/emulated/simulated-world.ts';
import { startVirtualRig } from '#device/emulated/virtual-rig.ts';
import { ScanEar } from '#tests/support/scan-ear.ts';

const wall = { monotonicS: () => 0, wallMs: () => 1_700_000_000_000 };
let rig: VirtualRig;

afterEach(async () => {
  await rig.stop();
});

/** Makes time pass until something has happened. */
async function until<T>(happens: Promise<T>): Promise<T> {
  let done = false;
  const watched = happens.finally(() => {
    done = true;
  });
  for (let passed = 0; !done; passed++) {
    if (passed > 500) throw new Error('nothing happened in ten seconds');
    await rig.advance(0.02);
  }
  return watched;
}

const once = (transport: Transport, event: string): Promise<unknown> =>
  new Promise((resolve) => transport.once(event, resolve));

describe('johnny-five on an emulated board', () => {
  test('becomes ready, and reads and writes the chips', async () => {
    rig = startVirtualRig({ seed: 3, wall });
    const io = new firmataIo.Firmata(rig.boards[1]!.open());
    const board = new five.Board({
      io,
      repl: false,
      debug: false,
      sigint: false,
    } as five.BoardOption);
    await until(new Promise<void>((resolve) => board.on('ready', () => resolve())));
    expect(io.firmware).toEqual({ name: 'heelwright', version: { major: 1, minor: 0 } });

    io.i2cConfig({});
    const read = (address: number, register: number, count: number) =>
      until(new Promise<number[]>((resolve) => io.i2cReadOnce(address, register, count, resolve)));
    expect(await read(0x6a, 0x0f, 1)).toEqual([0x6b]);
    expect(await read(0x48, 1, 2)).toEqual([0x85, 0x83]);
    io.i2cWrite(0x6a, [0x10, 0x42]);
    expect(await read(0x6a, 0x10, 1)).toEqual([0x42]);
  });
});

describe('scan of both boards', () => {
  test('counts agree with the certificate-free truth, time with the board clock error', async () => {
    rig = startVirtualRig({ seed: 3, wall, clockErrorPpm: { fore: 4000, aft: -4000 } });
    const ears = rig.boards.map((board) => new ScanEar(board.open(), rig.clock.monotonicS));
    await rig.advance(1);
    for (const ear of ears) {
      ear.sysex(...clearMessage());
      ear.sysex(0x78, 0, 0);
      ear.sysex(0x76, 0x6a, 0, 0x10, 0, 0x42, 0);
      ear.sysex(
        ...stepMessage({
          address: 0x6a,
          register: 0x28,
          readCount: 4,
          write: [],
          when: 'always',
          fromFrameBefore: false,
        }),
      );
      ear.sysex(...startMessage(20_000));
    }
    await rig.advance(100);
    const [fore, aft] = ears.map((ear) => ear.frames());
    // 100 s of the world are 5020 and 4980 periods on clocks 4000 ppm fast and slow.
    expect(Math.abs(fore!.length - 5020)).toBeLessThanOrEqual(2);
    expect(Math.abs(aft!.length - 4980)).toBeLessThanOrEqual(2);
    const counts = fore!.map(({ frame }) =>
      new DataView(frame.bytes.buffer, frame.bytes.byteOffset).getInt16(2, true),
    );
    const meanG = (counts.reduce((sum, one) => sum + one, 0) / counts.length) * 0.015e-3;
    // Upright, but for her own list, a zero of up to 8 mg and a scale of up to 2 %.
    expect(Math.abs(meanG)).toBeLessThan(0.03);
    expect(new Set(counts).size).toBeGreaterThan(5);
    // Arrival on the station clock never comes before the board said it, and soon after.
    const arrivals = fore!.map(({ frame, arrivedS }) => arrivedS - (frame.boardUs * 1e-6) / 1.004);
    expect(Math.max(...arrivals) - Math.min(...arrivals)).toBeLessThan(0.001);
  });

  test('the same seed gives the same bytes', async () => {
    const run = async (): Promise<string> => {
      rig = startVirtualRig({ seed: 5, wall });
      const bytes: number[] = [];
      rig.boards[0]!.open().on('data', (data: Buffer) => bytes.push(...data));
      const ear = rig.boards[1]!.open();
      ear.on('data', (data: Buffer) => bytes.push(...data));
      await rig.advance(0.5);
      ear.write([0xf0, ...queryMessage(), 0xf7]);
      await rig.advance(0.5);
      await rig.stop();
      return Buffer.from(bytes).toString('hex');
    };
    expect(await run()).toBe(await run());
  });
});

describe('ports', () => {
  test('opening resets the board; a port that is open cannot be opened', async () => {
    const images: Uint8Array[] = [];
    rig = startVirtualRig({ seed: 3, wall, onEeprom: (_, image) => images.push(image) });
    await rig.advance(1);
    const ear = new ScanEar(rig.boards[0]!.open());
    await rig.advance(1);
    ear.sysex(...queryMessage());
    await rig.advance(0.1);
    // Power, then the opening. (An opening at second 0 is one start: power and reset pin together.)
    expect(ear.replies.at(-1)).toMatchObject({ identity: { resetCounter: 2, startCause: 2 } });
    const error = await until(once(rig.boards[0]!.open(), 'error'));
    expect(String(error)).toContain('Cannot lock port');

    // The identity goes with the kept image.
    const { identity } = ear.replies.at(-1) as { identity: { board: string } };
    const fore = images.findLast(
      (image) => Buffer.from(image.subarray(0, 8)).toString('hex') === identity.board,
    );
    expect(fore?.length).toBe(1024);
    await rig.stop();
    rig = startVirtualRig({ seed: 4, wall, eeproms: { fore: fore! } });
    const again = new ScanEar(rig.boards[0]!.open());
    await rig.advance(1);
    again.sysex(...queryMessage());
    await rig.advance(0.1);
    expect(again.replies.at(-1)).toMatchObject({
      identity: { board: identity.board, resetCounter: 3 },
    });
  });

  test('an unplugged board closes its transport, cannot be opened, and comes back by power', async () => {
    rig = startVirtualRig({ seed: 3, wall });
    const board = rig.boards[0]!;
    const transport = board.open();
    await rig.advance(1);
    const closed = once(transport, 'close');
    rig.unplug('fore');
    expect(await closed).toMatchObject({ disconnected: true });
    expect(rig.status().boards[0]).toMatchObject({ plugged: false, open: false });
    expect(String(await until(once(board.open(), 'error')))).toContain('No such device');
    await rig.advance(5);
    rig.replug('fore');
    await rig.advance(1);
    const ear = new ScanEar(board.open());
    await rig.advance(1);
    ear.sysex(...queryMessage());
    await rig.advance(0.1);
    const reply = ear.replies.at(-1) as { identity: { resetCounter: number } };
    expect(reply).toMatchObject({ identity: { resetCounter: 3 } });
  });

  test('a closed transport calls back, hears nothing more, and refuses writes', async () => {
    rig = startVirtualRig({ seed: 3, wall });
    const transport = rig.boards[0]!.open();
    await rig.advance(0.1);
    let heard = 0;
    transport.on('data', () => {
      heard += 1;
    });
    await new Promise<void>((resolve) => transport.close(() => resolve()));
    await rig.advance(1);
    expect(heard).toBe(0);
    const error = await new Promise((resolve) => transport.write([1], resolve));
    expect(String(error)).toContain('not open');
  });
});

test('a host that writes without end is told, and the board goes on', async () => {
  rig = startVirtualRig({ seed: 3, wall });
  const transport = rig.boards[0]!.open();
  const ear = new ScanEar(transport);
  await rig.advance(1);
  const write = (count: number) =>
    new Promise((resolve) => transport.write(new Uint8Array(count), resolve));
  expect(await write(40_000)).toBeNull();
  expect(String(await write(40_000))).toContain('wait for the serial line');
  await rig.advance(5);
  expect(await write(100)).toBeNull();
  ear.sysex(...queryMessage());
  await rig.advance(0.1);
  expect(ear.replies.length).toBe(1);
});

test('a bus fault is felt on the board it was set for only', async () => {
  rig = startVirtualRig({ seed: 3, wall });
  const ears = rig.boards.map((board) => new ScanEar(board.open()));
  await rig.advance(1);
  rig.disturbBus('aft', { kind: 'no-answer', address: 0x6a });
  for (const ear of ears) {
    ear.sysex(0x78, 0, 0);
    ear.sysex(0x76, 0x6a, 0x08, 0x0f, 0, 1, 0);
  }
  await rig.advance(0.1);
  expect(ears[0]!.other.at(-1)).toEqual([0xf0, 0x77, 0x6a, 0, 0x0f, 0, 0x6b, 0, 0xf7]);
  expect(ears[1]!.other.at(-1)).toEqual([0xf0, 0x77, 0x6a, 0, 0x0f, 0, 0xf7]);
});

test('a command is felt by the world at the second it names', async () => {
  rig = startVirtualRig({ seed: 3, wall });
  await rig.advance(1);
  const atS = rig.command({ state: 0, weights: [], disturbances: { ...ALL_QUIET, wind: true } });
  expect(atS).toBeGreaterThan(1);
  expect(atS).toBeLessThan(1.01);
  await rig.advance(1);
  expect(rig.status().worldTimeS).toBeCloseTo(2, 5);
  expect(rig.clock.wallMs()).toBeCloseTo(1_700_000_000_000 + 2000, 3);
  expect(rig.vessel().truth.gmFluidM).toBeGreaterThan(0);
});
