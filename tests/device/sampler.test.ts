import { describe, expect, it } from 'vitest';
import { type SampleBlock, streamItem } from '#core/sample/stream-item.ts';
import { Sampler } from '#device/sampler.ts';
import { type StoredItem, StreamWriter } from '#device/stream-writer.ts';

const CLOCK = { monotonicS: () => 12, wallMs: () => 0 };

function sampling(room: () => boolean = () => true) {
  const stored: StoredItem[] = [];
  const sink = {
    take: (item: StoredItem, urgent: boolean) => {
      if (!urgent && !room()) return false;
      stored.push(item);
      return true;
    },
  };
  const writer = new StreamWriter('station/aft/3', sink, CLOCK);
  const sampler = new Sampler(writer, { channelCount: 2, periodUs: 20_000 });
  let sequence = 0;
  const add = (options: { step?: number; fault?: boolean; skipped?: number } = {}) => {
    sequence += options.step ?? 1;
    sampler.add({
      time: { sequence, boardUs: sequence * 20_000 },
      counts: [sequence, options.fault ? null : -sequence],
      faults: options.fault ? [{ channel: 1, code: 'bus-no-answer' }] : [],
      skipped: options.skipped ?? 0,
      arrivedS: sequence * 0.02,
    });
  };
  const items = () => stored.map(({ bytes }) => streamItem.parse(JSON.parse(bytes.toString())));
  const blocks = () => items().filter((item): item is SampleBlock => item.type === 'samples');
  return { add, sampler, writer, stored, items, blocks };
}

describe('the sampler', () => {
  it('closes a block with the scan that makes half a second full', () => {
    const { add, blocks } = sampling();
    for (let k = 0; k < 24; k += 1) add();
    expect(blocks()).toHaveLength(0);
    add();
    expect(blocks()).toHaveLength(1);
    const [block] = blocks();
    expect(block).toMatchObject({
      firstSequence: 1,
      firstBoardUs: 20_000,
      skipped: 0,
      arrivedStationS: 0.5,
    });
    expect(block!.columns[0]).toEqual(Array.from({ length: 25 }, (_, k) => k + 1));
    expect(block!.stepUs).toEqual([0, ...new Array<number>(24).fill(20_000)]);
    expect(block!.stepSequence).toBeUndefined();
  });

  it('keeps every count, fault and hole where it was', () => {
    const { add, sampler, blocks } = sampling();
    add();
    add({ fault: true });
    add({ step: 3, skipped: 2 });
    sampler.flush();
    expect(blocks()[0]).toMatchObject({
      stepUs: [0, 20_000, 60_000],
      stepSequence: [0, 1, 3],
      columns: [
        [1, 2, 5],
        [-1, null, -5],
      ],
      faults: [[1, 1, 'bus-no-answer']],
      skipped: 2,
    });
  });

  it('never lets a block span more than a second of the board', () => {
    const { add, blocks } = sampling();
    add();
    add({ step: 60 });
    expect(blocks()).toHaveLength(1);
    expect(blocks()[0]!.stepUs).toEqual([0]);
  });

  it('writes nothing when nothing was gathered', () => {
    const { sampler, stored } = sampling();
    sampler.flush();
    expect(stored).toEqual([]);
  });

  it('refuses a scan with another number of channels', () => {
    const { sampler } = sampling();
    const time = { sequence: 1, boardUs: 1 };
    expect(() => sampler.add({ time, counts: [1], faults: [], skipped: 0, arrivedS: 0 })).toThrow(
      RangeError,
    );
  });
});

describe('the stream writer', () => {
  it('numbers items without a hole and makes their bytes once', () => {
    const { add, writer, stored } = sampling();
    for (let k = 0; k < 25; k += 1) add();
    writer.clock({ boardUs: 5, stationS: 1, rate: 1, uncertaintyS: 0.1 });
    writer.close('wanted');
    expect(stored.map(({ number }) => number)).toEqual([0, 1, 2]);
    expect(stored.map(({ closes }) => closes)).toEqual([false, false, true]);
    for (const { bytes, number } of stored) {
      expect(JSON.parse(bytes.toString())).toMatchObject({ stream: 'station/aft/3', number, v: 1 });
      expect(bytes.includes(0x0a)).toBe(false);
    }
  });

  it('counts what found no room, uses no number for it, and tells of it in the room kept back', () => {
    let room = true;
    const { add, writer, items } = sampling(() => room);
    for (let k = 0; k < 25; k += 1) add();
    room = false;
    for (let k = 0; k < 75; k += 1) add();
    // The last block is not yet told of: less than what was told of already.
    expect(writer.lostSamples).toBe(25);
    room = true;
    for (let k = 0; k < 25; k += 1) add();
    expect(writer.lostSamples).toBe(0);
    expect(items().map(({ number, type }) => [number, type])).toEqual([
      [0, 'samples'],
      [1, 'stream-fault'],
      [2, 'stream-fault'],
      [3, 'stream-fault'],
      [4, 'samples'],
    ]);
    for (const item of items().slice(1, 4))
      expect(item).toMatchObject({ code: 'spool-full', found: '25 samples lost' });
    expect(items()[4]).toMatchObject({ firstSequence: 101 });
  });

  it('has told of half of what is lost at least, whenever it is killed, in few items', () => {
    const { add, items } = sampling(() => false);
    let told = 0;
    for (let lost = 25; lost <= 25_000; lost += 25) {
      for (let k = 0; k < 25; k += 1) add();
      told = items().reduce(
        (sum, item) => sum + (item.type === 'stream-fault' ? Number.parseInt(item.found, 10) : 0),
        0,
      );
      expect(2 * told).toBeGreaterThanOrEqual(lost);
      expect(told).toBeLessThanOrEqual(lost);
    }
    expect(items().length).toBeLessThan(15);
  });

  it('writes nothing after the closing', () => {
    const { writer, stored } = sampling();
    writer.close('board-lost');
    writer.close('wanted');
    expect(writer.fault('chip-stuck', 'a', 'b')).toBe(false);
    expect(stored).toHaveLength(1);
  });

  it('lets no item out that the record would refuse', () => {
    const { writer } = sampling();
    expect(() =>
      writer.clock({ boardUs: 1, stationS: Number.NaN, rate: 1, uncertaintyS: 0 }),
    ).toThrow();
  });
});
