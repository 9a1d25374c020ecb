import { afterEach, describe, expect, it } from 'vitest';
import type { FaultCode } from '#core/fault/fault.ts';
import type { SampleBlock, StreamItem } from '#core/sample/stream-item.ts';
import type { BusFault } from '#device/emulated/rig-types.ts';
import { ALL_QUIET } from '#device/emulated/simulated-world.ts';
import { sequencesOf } from '#tests/device/support/test-receiver.ts';
import { type ChipSource, startChipSource } from '#tests/support/chip-source.ts';
import { VirtualDay } from '#tests/support/day.ts';

const STRETCH_S = 600;
/** Counts lost to a bus that frees itself: five channels for two seconds, until the chip is trusted again. */
const MOST_LOST = 5 * 100;

let source: ChipSource | null = null;
afterEach(async () => {
  await source?.stop();
  source = null;
});

/** Items of one board's streams, in the order they were opened. */
function itemsOf(chips: ChipSource, board: 'fore' | 'aft'): StreamItem[] {
  return [...chips.receiver.streams.values()]
    .map((held) => held.map(({ item }) => item))
    .filter(([opened]) => opened?.type === 'stream-opened' && opened.port === `emulated ${board}`)
    .flat();
}

function blocksOf(items: readonly StreamItem[]): SampleBlock[] {
  return items.filter((item) => item.type === 'samples');
}

describe('ten minutes at chip level when things are rough', () => {
  it('a busy harbour: everything moves, every scan arrives once, nothing is called steady that is not', async () => {
    source = await startChipSource(77);
    const day = new VirtualDay(source);
    source.order(day.nowS, day.session);
    source.disturb({ wind: true, gusts: true, wakes: true, walking: true, snaggedLine: false });
    day.watch.beginState(day.nowS);
    await day.pass(STRETCH_S);
    expect(source.receiver.broken).toEqual([]);
    for (const stream of source.receiver.streams.keys()) {
      const sequences = sequencesOf(source.receiver.items(stream));
      expect(sequences).toEqual(sequences.map((_, k) => k));
      expect(sequences.length).toBeGreaterThan((STRETCH_S - 10) * 49);
    }
    // A wake, a gust or a person is seen for what it is: some of this time must not be used.
    expect(day.notUsed.length).toBeGreaterThan(0);
  }, 240_000);

  it('a bad bus: every lost count has its code, the board goes on, and good counts return', async () => {
    source = await startChipSource(78);
    const day = new VirtualDay(source);
    source.order(day.nowS, day.session);
    source.disturb(ALL_QUIET);
    day.watch.beginState(day.nowS);
    await day.pass(60);
    // Null: the firmware frees the bus by clock pulses, so at most the scans around it are lost.
    const faults: { fault: BusFault; codes: readonly FaultCode[] | null }[] = [
      { fault: { kind: 'no-answer', address: 0x6a }, codes: ['bus-no-answer'] },
      { fault: { kind: 'data-held', pulses: 5 }, codes: null },
      { fault: { kind: 'clock-held' }, codes: ['bus-stuck', 'bus-no-answer'] },
      {
        fault: { kind: 'data-held', pulses: Number.POSITIVE_INFINITY },
        codes: ['bus-stuck', 'bus-no-answer'],
      },
      { fault: { kind: 'stuck-value', address: 0x6a }, codes: ['chip-stuck'] },
    ];
    for (const { fault, codes } of faults) {
      await source.settled();
      const before = blocksOf(itemsOf(source, 'aft')).length;
      source.rig.disturbBus('aft', fault);
      await day.pass(30);
      source.rig.disturbBus('aft', { kind: 'none' });
      await day.pass(60);
      await source.settled();
      const blocks = blocksOf(itemsOf(source, 'aft')).slice(before);
      const seen = new Set(blocks.flatMap((block) => block.faults.map(([, , code]) => code)));
      const words = `${fault.kind}: ${[...seen].join(', ')}`;
      if (codes === null)
        expect(blocks.flatMap((block) => block.faults).length, words).toBeLessThan(MOST_LOST);
      else
        expect(
          codes.some((code) => seen.has(code)),
          words,
        ).toBe(true);
    }
    await day.pass(STRETCH_S - (day.nowS - source.startS!));

    await source.settled();
    const aft = blocksOf(itemsOf(source, 'aft'));
    expect(source.receiver.broken).toEqual([]);
    for (const block of aft) {
      // A count that was read stands beside its fault; one that could not be read is null, never stale.
      for (const [sample, channel, code] of block.faults)
        if (code.startsWith('bus-')) expect(block.columns[channel]![sample]).toBeNull();
    }
    expect(aft.at(-1)!.faults).toEqual([]);
    // The board fore never noticed.
    const fore = itemsOf(source, 'fore');
    expect(fore.filter(({ type }) => type === 'stream-opened')).toHaveLength(1);
    expect(sequencesOf(fore)).toEqual(sequencesOf(fore).map((_, k) => k));
    expect(blocksOf(fore).flatMap((block) => block.faults)).toEqual([]);
  }, 240_000);
});
