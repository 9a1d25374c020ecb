import { EventEmitter } from 'node:events';
import { describe, expect, it } from 'vitest';
import { streamItem } from '#core/sample/stream-item.ts';
import { connectBoard } from '#device/board.ts';
import { BoardSession, type StationServices } from '#device/board-session.ts';
import { ClockJumps } from '#device/clock-jumps.ts';
import type { Transport as RigTransport, VirtualRig } from '#device/emulated/rig-types.ts';
import { startVirtualRig } from '#device/emulated/virtual-rig.ts';
import { emulatedOutfit, emulatedPorts } from '#device/emulated-station.ts';
import type { StationEvent } from '#device/events.ts';
import { machineClock } from '#device/machine-clock.ts';
import type { StoredItem } from '#device/stream-writer.ts';
import type { BoardPort, Transport } from '#device/transport.ts';
import { sequencesOf } from './support/test-receiver.ts';

const START_SYSEX = 0xf0;
const QUERY_FIRMWARE = 0x79;

/**
 * The emulated board under another firmware's name: the first letter of the name it gives itself
 * is changed on the line, everything else passes.
 */
class OtherName extends EventEmitter implements Transport {
  readonly #inner: RigTransport;
  #seen: number[] = [];

  constructor(inner: RigTransport) {
    super();
    this.#inner = inner;
    inner.on('open', () => this.emit('open'));
    inner.on('close', (error: unknown) => this.emit('close', error));
    inner.on('error', (error: unknown) => this.emit('error', error));
    inner.on('data', (bytes: Buffer) =>
      this.emit('data', Buffer.from([...bytes].map((byte) => this.#pass(byte)))),
    );
  }
  write(bytes: Uint8Array, done?: (error?: Error | null) => void): boolean {
    return this.#inner.write(bytes, done);
  }
  close(done?: (error?: Error | null) => void): void {
    this.#inner.close(done);
  }
  /** F0 79 major minor, then the name, two bytes a letter. */
  #pass(byte: number): number {
    if (byte === START_SYSEX) this.#seen = [];
    this.#seen.push(byte);
    return this.#seen.length === 5 && this.#seen[1] === QUERY_FIRMWARE ? 0x53 : byte;
  }
}

function bench(renaming: boolean) {
  const rig = startVirtualRig({
    seed: 9,
    wall: machineClock,
    clockErrorPpm: { fore: 100, aft: 3000 },
  });
  const stored: StoredItem[] = [];
  const events: StationEvent[] = [];
  let room = true;
  let refused = 0;
  let named = 0;
  const outfit = emulatedOutfit(9, []);
  const services: StationServices = {
    station: 'station',
    run: 'run',
    clocks: { station: rig.clock, machine: machineClock },
    jumps: new ClockJumps(rig.clock),
    sink: {
      take: (item) => {
        if (room) stored.push(item);
        else refused += 1;
        return room;
      },
    },
    report: (event) => events.push(event),
    scanPeriodUs: 20_000,
    nextStream: (board) => Promise.resolve(`station/${board}/${named++}`),
    expected: outfit.expected,
    nameOf: outfit.nameOf,
  };
  const aft = emulatedPorts(rig)[1]!;
  const port: BoardPort = renaming
    ? { ...aft, open: () => new OtherName(rig.boards[1]!.open()) }
    : aft;
  const items = (stream: string) =>
    stored
      .filter((item) => item.stream === stream)
      .map(({ bytes }) => streamItem.parse(JSON.parse(bytes.toString())));
  const setRoom = (now: boolean) => {
    room = now;
  };
  return { rig, port, services, items, events, setRoom, refused: () => refused };
}

async function passUntil(rig: VirtualRig, holds: () => boolean): Promise<void> {
  for (let step = 0; !holds(); step += 1) {
    if (step > 1000) throw new Error('not within 100 simulated seconds');
    await rig.advance(0.1);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

/** A promise kept by simulated time passing. */
async function passing<T>(rig: VirtualRig, promise: Promise<T>): Promise<T> {
  let settled = false;
  const watched = promise.finally(() => {
    settled = true;
  });
  watched.catch(() => undefined);
  await passUntil(rig, () => settled);
  return watched;
}

describe('a session with a board', () => {
  it('streams a board that is not ours by continuous reads, on the host time, and says so', async () => {
    const { rig, port, services, items, events } = bench(true);
    const connected = await passing(rig, connectBoard(port, 115_200));
    expect(connected).toMatchObject({ isOurs: false, firmware: 'Seelwright 1.0' });
    const session = new BoardSession(connected, port.name, services);
    const running = session.run();
    await passUntil(rig, () => session.stream !== null);
    const stream = session.stream!;
    await rig.advance(5);
    session.stop();
    expect(await passing(rig, running)).toBe('wanted');
    await rig.stop();

    expect(events).toContainEqual(expect.objectContaining({ code: 'board-not-ours' }));
    const [opened, ...rest] = items(stream);
    expect(opened).toMatchObject({
      board: 'emulated-aft',
      boardIsOurs: false,
      resetCounter: 0,
      periodUs: 50_000,
    });
    const sequences = sequencesOf(rest);
    expect(sequences.length).toBeGreaterThan(80);
    expect(sequences).toEqual(sequences.map((_, k) => k));
    const blocks = rest.flatMap((item) => (item.type === 'samples' ? [item] : []));
    // Counts of a still vessel near level: some hundreds of counts, never the 0 of a sleeping chip.
    const y = blocks.flatMap(({ columns }) => columns[1]!);
    expect(y.every((count) => count !== null && Math.abs(count) < 2000)).toBe(true);
    expect(new Set(y).size).toBeGreaterThan(3);
    // The converter is switched by the host: each leg every other round, the two not mixed up.
    const last = blocks.at(-1)!;
    // Over the whole stream: how a busy machine's last block falls out says nothing.
    const legs = [3, 4].map((channel) => blocks.flatMap(({ columns }) => columns[channel]!));
    for (const leg of legs) expect(leg.some((count) => count !== null && count > 5000)).toBe(true);
    expect(
      last.columns[3]!.every((count, k) => (count === null) !== (last.columns[4]![k] === null)),
    ).toBe(true);
  });

  it('renews its stream between two scans and loses none', async () => {
    const { rig, port, services, items } = bench(false);
    const connected = await passing(rig, connectBoard(port, 115_200));
    const session = new BoardSession(connected, port.name, services);
    const running = session.run();
    await passUntil(rig, () => session.stream !== null);
    const first = session.stream!;
    await rig.advance(2);
    session.renew();
    const second = session.stream!;
    expect(second).not.toBe(first);
    await rig.advance(2);
    session.stop();
    await passing(rig, running);
    await rig.stop();
    const before = sequencesOf(items(first));
    const after = sequencesOf(items(second));
    expect(items(first).at(-1)).toMatchObject({ type: 'stream-closed', reason: 'wanted' });
    expect(after[0]).toBe(before.at(-1)! + 1);
    expect([...before, ...after]).toEqual([...before, ...after].map((_, k) => k));
  });

  it('opens a stream when there is room at last, and says what was lost', async () => {
    const { rig, port, services, items, setRoom, refused } = bench(false);
    setRoom(false);
    const connected = await passing(rig, connectBoard(port, 115_200));
    const session = new BoardSession(connected, port.name, services);
    const running = session.run();
    await passUntil(rig, () => refused() > 20);
    expect(session.stream).toBeNull();
    setRoom(true);
    await passUntil(rig, () => session.stream !== null);
    const stream = session.stream!;
    await rig.advance(1);
    session.stop();
    await passing(rig, running);
    await rig.stop();
    expect(items(stream)[0]?.type).toBe('stream-opened');
    expect(items(stream)).toContainEqual(
      expect.objectContaining({ type: 'stream-fault', code: 'spool-full' }),
    );
  });

  it('ends when the board restarts by itself', async () => {
    const { rig, port, services, items, events } = bench(false);
    const connected = await passing(rig, connectBoard(port, 115_200));
    const session = new BoardSession(connected, port.name, services);
    const running = session.run();
    await passUntil(rig, () => session.stream !== null);
    const stream = session.stream!;
    await rig.advance(2);
    // What a board sends when it starts: the version, then its name.
    connected.io.emit('queryfirmware');
    expect(await passing(rig, running)).toBe('board-reset');
    await rig.stop();
    expect(items(stream).at(-1)).toMatchObject({ type: 'stream-closed', reason: 'board-reset' });
    expect(events).toContainEqual(expect.objectContaining({ code: 'board-reset' }));
  });
});
