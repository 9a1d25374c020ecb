import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { SampleBlock, StreamItem } from '#core/sample/stream-item.ts';
import type { VirtualRig } from '#device/emulated/rig-types.ts';
import { startVirtualRig } from '#device/emulated/virtual-rig.ts';
import { emulatedOutfit, emulatedPorts } from '#device/emulated-station.ts';
import type { StationEvent } from '#device/events.ts';
import { machineClock } from '#device/machine-clock.ts';
import { Station } from '#device/station.ts';
import { sequencesOf, TestReceiver, until } from './support/test-receiver.ts';

let folder: string;
let receiver: TestReceiver;
let rig: VirtualRig;
let station: Station;
let events: StationEvent[];

beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'chain-'));
  receiver = new TestReceiver();
  events = [];
  rig = startVirtualRig({
    seed: 5,
    wall: machineClock,
    clockErrorPpm: { fore: 5000, aft: -4000 },
  });
  station = await Station.open({
    dataFolder: folder,
    receiverUrl: await receiver.listen(),
    pairing: { code: 'a'.repeat(22), pin: null },
    clocks: { station: rig.clock, machine: machineClock },
    report: (event) => events.push(event),
    outfit: emulatedOutfit(5, []),
  });
  for (const port of emulatedPorts(rig)) station.keep(port);
});

afterEach(async () => {
  await Promise.all([station.stop(0), rig.advance(2)]);
  await rig.stop();
  await receiver.close();
  await rm(folder, { recursive: true, force: true });
});

/** Lets simulated time pass until something holds; answers need wall time too, so each step leaves some. */
async function passUntil(holds: () => boolean, what: string): Promise<void> {
  for (let step = 0; !holds(); step += 1) {
    if (step > 1000) throw new Error(`not within 100 simulated seconds: ${what}`);
    await rig.advance(0.1);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

const streamsOpened = (count: number) => () =>
  events.filter(({ event }) => event === 'stream').length >= count;

function streamsOf(port: string): StreamItem[][] {
  return [...receiver.streams.values()]
    .map((held) => held.map(({ item }) => item))
    .filter(([opened]) => opened?.type === 'stream-opened' && opened.port === port);
}

/** The newest block of the aft board has no fault. */
function trusted(): boolean {
  const newest = blocksOf(streamsOf('emulated aft').flat()).at(-1);
  return newest !== undefined && newest.faults.length === 0;
}

function blocksOf(items: readonly StreamItem[]): SampleBlock[] {
  return items.flatMap((item) => (item.type === 'samples' ? [item] : []));
}

describe('the whole chain from emulated chip to acknowledged block, in virtual time', () => {
  it('brings a minute at 50 Hz over without a hole and none twice, and maps its clocks', async () => {
    await passUntil(streamsOpened(2), 'both boards');
    await rig.advance(61);
    await Promise.all([station.stop(5000), rig.advance(2)]);
    expect(receiver.broken).toEqual([]);
    for (const [port, clockError, channels] of [
      ['emulated fore', 5000e-6, 3],
      ['emulated aft', -4000e-6, 5],
    ] as const) {
      const streams = streamsOf(port);
      expect(streams).toHaveLength(1);
      const items = streams[0]!;
      expect(items.map(({ number }) => number)).toEqual(items.map((_, k) => k));
      const sequences = sequencesOf(items);
      expect(sequences.length).toBeGreaterThan(3000);
      expect(sequences).toEqual(sequences.map((_, k) => k));
      const blocks = blocksOf(items);
      expect(blocks.every(({ columns }) => columns.length === channels)).toBe(true);
      expect(blocks.every(({ skipped }) => skipped === 0)).toBe(true);
      // The board's own step is exact on its own clock.
      expect(new Set(blocks.flatMap(({ stepUs }) => stepUs.slice(1)))).toEqual(new Set([20_000]));
      // Of the water tube only the very first conversion was not started by a scan before.
      const faults = blocks.flatMap((block) =>
        block.faults.map((fault) => [block.number, ...fault]),
      );
      expect(faults).toEqual(port === 'emulated aft' ? [[1, 0, 4, 'chip-not-ready']] : []);
      const maps = items.filter((item) => item.type === 'board-clock');
      expect(maps.at(-1)!.rate * (1 + clockError)).toBeCloseTo(1, 4);
      expect(items.at(-1)).toMatchObject({ type: 'stream-closed', reason: 'wanted' });
    }
    expect(station.spool.streams()).toEqual([]);
    expect(events.filter(({ event }) => event === 'fault')).toEqual([]);
  });

  it('reads one leg of the tube in each scan, port and starboard in turn', async () => {
    await passUntil(() => blocksOf(streamsOf('emulated aft').flat()).length > 3, 'three blocks');
    const block = blocksOf(streamsOf('emulated aft').flat())[2]!;
    const parity = block.firstSequence % 2;
    const [port, starboard] = [block.columns[3]!, block.columns[4]!];
    port.forEach((count, k) => {
      expect((count === null) === ((k + parity) % 2 === 0)).toBe(true);
      expect((starboard[k] === null) === ((k + parity) % 2 === 1)).toBe(true);
    });
  });

  it('begins a new stream when a board is unplugged and plugged in again', async () => {
    await passUntil(streamsOpened(2), 'both boards');
    await rig.advance(3);
    rig.unplug('fore');
    await passUntil(() => events.some(({ event }) => event === 'stream-closed'), 'the loss');
    rig.replug('fore');
    await passUntil(streamsOpened(3), 'the board again');
    await rig.advance(2);
    await until(() => blocksOf(streamsOf('emulated fore')[1] ?? []).length > 1, 'its blocks');
    const [first, second] = streamsOf('emulated fore');
    expect(first!.at(-1)).toMatchObject({ type: 'stream-closed', reason: 'board-lost' });
    expect(first!.at(-2)).toMatchObject({ type: 'board-clock' });
    const [a, b] = [first![0]!, second![0]!];
    if (a.type !== 'stream-opened' || b.type !== 'stream-opened') throw new Error('no opening');
    expect(b.board).toBe(a.board);
    expect(b.resetCounter).toBeGreaterThan(a.resetCounter);
    expect(streamsOf('emulated aft')).toHaveLength(1);
    expect(receiver.broken).toEqual([]);
  });

  it('flags every scan a chip did not answer in, and trusts it again after a check', async () => {
    await passUntil(streamsOpened(2), 'both boards');
    await rig.advance(2);
    rig.disturbBus('aft', { kind: 'no-answer', address: 0x6a });
    await rig.advance(1);
    rig.disturbBus('aft', { kind: 'none' });
    await passUntil(() => trusted(), 'the chip trusted again');
    await rig.advance(3);
    await Promise.all([station.stop(5000), rig.advance(2)]);
    const items = streamsOf('emulated aft').flat();
    expect(sequencesOf(items)).toEqual(sequencesOf(items).map((_, k) => k));
    expect(items).toContainEqual(
      expect.objectContaining({ type: 'stream-fault', code: 'bus-no-answer' }),
    );
    const blocks = blocksOf(items);
    const codes = blocks.flatMap((block) =>
      block.stepUs.map(
        (_, k) => block.faults.find(([at, channel]) => at === k && channel === 1)?.[2],
      ),
    );
    const silent = codes.filter((code) => code === 'bus-no-answer').length;
    expect(silent).toBeGreaterThanOrEqual(48);
    expect(silent).toBeLessThanOrEqual(54);
    expect(codes.filter((code) => code === 'chip-unchecked').length).toBeGreaterThan(0);
    expect(codes.slice(-100).every((code) => code === undefined)).toBe(true);
    // The converter on the same bus went on, and the other board never noticed.
    const port = blocks.at(-3)!.columns[3]!;
    expect(port.some((count) => count !== null)).toBe(true);
    expect(
      blocksOf(streamsOf('emulated fore').flat()).every(({ faults }) => faults.length === 0),
    ).toBe(true);
  });
});
