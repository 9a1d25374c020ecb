import { describe, expect, it } from 'vitest';
import { HeelConversion } from '#core/sample/heel.ts';
import { BOARD_CHANNELS } from '#core/sample/layout.ts';
import { type SampleBlock, type StreamItem, streamItem } from '#core/sample/stream-item.ts';
import { marramMountings, marramReality } from '#device/emulated/marram.ts';
import {
  boardClockErrorPpm,
  createSampleEntrance,
  SCAN_PERIOD_US,
} from '#device/emulated/sample-entrance.ts';
import { sineBarCertificates } from '#device/emulated/sine-bar.ts';
import { restingHeelRad } from '#device/emulated/vessel.ts';

const blocksOf = (items: readonly StreamItem[], board: string) =>
  items.filter(
    (item): item is SampleBlock => item.type === 'samples' && item.stream.includes(board),
  );

describe('the sample entrance', () => {
  it('gives streams of the agreed form, numbered without a hole', () => {
    const items = createSampleEntrance({ seed: 1 }).advance(130);
    for (const item of items) expect(streamItem.parse(item)).toEqual(item);
    for (const board of ['fore', 'aft'] as const) {
      const own = items.filter((item) => item.stream === `simulated/${board}/1`);
      expect(own.map((item) => item.number)).toEqual(own.map((_, k) => k));
      expect(own[0]).toMatchObject({ type: 'stream-opened', channels: BOARD_CHANNELS[board] });
      const blocks = blocksOf(own, board);
      expect(blocks.map((block) => block.firstSequence)).toEqual(blocks.map((_, k) => k * 25));
      // Within the board's clock error, 130 s of 50 Hz.
      expect(Math.abs(blocks.length - 260)).toBeLessThanOrEqual(2);
    }
  });

  it('is the same in one go and in many', () => {
    const whole = createSampleEntrance({ seed: 2 }).advance(20);
    const entrance = createSampleEntrance({ seed: 2 });
    const pieces: StreamItem[] = [];
    for (let untilS = 0.13; untilS < 20; untilS += 0.13) pieces.push(...entrance.advance(untilS));
    pieces.push(...entrance.advance(20));
    const perBoard = (items: StreamItem[], board: string) =>
      items.filter((item) => item.stream.includes(board));
    for (const board of ['fore', 'aft']) {
      expect(perBoard(pieces, board)).toEqual(perBoard(whole, board));
    }
    expect(createSampleEntrance({ seed: 3 }).advance(20)).not.toEqual(whole);
  });

  it('reads one leg a scan in turn, the one started by the scan before', () => {
    const [block] = blocksOf(createSampleEntrance({ seed: 1 }).advance(2), 'aft');
    const port = block!.columns[3]!.map((one) => one !== null);
    const starboard = block!.columns[4]!.map((one) => one !== null);
    expect(port.slice(0, 5)).toEqual([false, true, false, true, false]);
    expect(starboard.slice(0, 5)).toEqual([false, false, true, false, true]);
    // As on a board: nothing was started before the first scan.
    expect(block!.faults).toEqual([[0, 4, 'chip-not-ready']]);
  });

  it('keeps each board on its own clock and says how it maps to the station', () => {
    const items = createSampleEntrance({ seed: 9, clockErrorPpm: { fore: 4000 } }).advance(300);
    const last = blocksOf(items, 'fore').at(-1)!;
    const clock = items.find((item) => item.type === 'board-clock' && item.stream.includes('fore'));
    if (clock?.type !== 'board-clock') throw new Error('the stream has no board clock');
    const lastUs = last.firstBoardUs + 24 * SCAN_PERIOD_US;
    const stationS = clock.stationS + (lastUs - clock.boardUs) * 1e-6 * clock.rate;
    expect(stationS).toBeCloseTo((lastUs * 1e-6) / 1.004, 9);
    expect(last.arrivedStationS).toBeGreaterThan(stationS);
    expect(Math.abs(boardClockErrorPpm(9, 'aft'))).toBeLessThanOrEqual(5000);
    expect(boardClockErrorPpm(9, 'aft')).not.toBe(boardClockErrorPpm(9, 'fore'));
  });

  it('shows the heel of the vessel on all three instruments, within their zeros', () => {
    const seed = 5;
    const certificates = sineBarCertificates(seed);
    const instruments = marramMountings().map((mounting) => ({
      mounting,
      certificate: certificates.find((one) => one.instrument === mounting.instrument) ?? null,
    }));
    const items = createSampleEntrance({ seed }).advance(200);
    const resting = restingHeelRad(marramReality(seed).form, { transverseTM: 0, verticalTM: 0 });
    for (const board of ['fore', 'aft'] as const) {
      const stream = { channels: BOARD_CHANNELS[board], periodUs: SCAN_PERIOD_US };
      const conversion = new HeelConversion(stream, instruments);
      const heels = new Map<string, number[]>();
      for (const block of blocksOf(items, board)) {
        for (const { instrument, heelDeg } of conversion.convert(block)) {
          const known = heels.get(instrument) ?? [];
          known.push(...heelDeg.filter((one) => one !== null));
          heels.set(instrument, known);
        }
      }
      expect([...heels.keys()]).toEqual(board === 'fore' ? ['fore'] : ['aft', 'tube']);
      for (const values of heels.values()) {
        const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
        // Zero drift between workshop and berth: up to some hundredths of a degree.
        expect(Math.abs(mean - (resting * 180) / Math.PI)).toBeLessThan(0.04);
      }
    }
  });
});
