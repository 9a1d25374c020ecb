import { createRandom } from '#core/numerics/random.ts';
import { conversionS, PGA_FIELD } from '#core/part/ads1115.ts';
import { RANGE_G } from '#core/part/iis2iclx.ts';
import { BOARD_CHANNELS, INSTRUMENTS } from '#core/sample/layout.ts';
import type { SampleBlock, StreamItem, StreamOpened } from '#core/sample/stream-item.ts';
import { convertedCounts } from './elements/conversion.ts';
import type { InclinometerElement, VoltageElement } from './elements/element.ts';
import { createInclinometerElement } from './elements/inclinometer.ts';
import { createLevelLegs } from './elements/level-legs.ts';
import { createSimulatedWorld, type SimulatedWorld } from './simulated-world.ts';

/**
 * The second entrance of the simulator: the same world and the same sensing elements as the
 * emulated chips, read as the boards would read them, without processor, bus or serial line. For
 * statistics over many days.
 */
export const SCAN_PERIOD_US = 20_000;
/** Ceramic resonators are sold at +-5000 ppm (*from memory*). */
const CLOCK_TOLERANCE_PPM = 5000;
const BLOCK_SAMPLES = 25;
const CLOCK_ITEM_EVERY_BLOCKS = 120;
/** From the last read of a scan to its arrival at the station. */
const ON_THE_LINE_S = 0.004;
/** What the driver of the inclinometer sets for a scan of 50 Hz: LPF2 at a tenth of the output rate. */
const CHIP_SETTINGS = { odrHz: 104, bandwidthHz: 10.4, rangeG: RANGE_G };
/** Data rate field of the converter: 128 conversions a second, done well within a scan. */
const DATA_RATE_FIELD = 4;

export type EntranceBoard = 'fore' | 'aft';

/** When chips are read in a scan, in microseconds of the board after the tick that begins it. */
export interface ScanTiming {
  readonly xUs: number;
  readonly yUs: number;
  readonly temperatureUs: number;
  /** An odd scan takes another branch of the firmware, a cycle longer. */
  readonly oddLaterUs: number;
  /** The converter begins when its configuration has been written. */
  readonly conversionStartUs: number;
}

/** Measured on the emulated board running the firmware at 400 kHz: the same to the cycle in every scan. */
export const SCAN_TIMING: ScanTiming = {
  xUs: 155.0625,
  yUs: 207.8125,
  temperatureUs: 369.8125,
  oddLaterUs: 0.0625,
  conversionStartUs: 701,
};

export interface EntranceOptions {
  readonly seed: number;
  readonly world?: SimulatedWorld;
  /** Parts per million a board's clock is fast; drawn from the seed where not given. */
  readonly clockErrorPpm?: Partial<Record<EntranceBoard, number>>;
  /** World seconds at which a board's microseconds are 0. */
  readonly bootS?: Partial<Record<EntranceBoard, number>>;
  /** Board microseconds of scan 0. */
  readonly firstScanUs?: Partial<Record<EntranceBoard, number>>;
  readonly timing?: ScanTiming;
}

export interface SampleEntrance {
  readonly world: SimulatedWorld;
  /** Reads all scans that begin before this world time; items in order, a stream for each board. */
  advance(untilS: number): StreamItem[];
}

export function boardClockErrorPpm(seed: number, board: EntranceBoard): number {
  return createRandom(seed, `${board} board clock`).between(
    -CLOCK_TOLERANCE_PPM,
    CLOCK_TOLERANCE_PPM,
  );
}

export function createSampleEntrance(options: EntranceOptions): SampleEntrance {
  const { seed } = options;
  const world = options.world ?? createSimulatedWorld({ seed });
  const boards = (['fore', 'aft'] as const).map((board) => createBoard(board, world, options));
  return {
    world,
    advance(untilS) {
      const items: StreamItem[] = [];
      // Board by board within half a second, so that the world need not look far back.
      for (;;) {
        const due = boards.filter((board) => board.nextScanS() < untilS);
        if (due.length === 0) return items;
        const fromS = Math.min(...due.map((board) => board.nextScanS()));
        for (const board of due) board.scanUntil(Math.min(untilS, fromS + 0.5), items);
      }
    },
  };
}

interface Board {
  nextScanS(): number;
  scanUntil(untilS: number, items: StreamItem[]): void;
}

/** What one scan adds: a count for each channel. */
type Scan = (sequence: number, worldS: (afterTickUs: number) => number) => (number | null)[];

function createBoard(board: EntranceBoard, world: SimulatedWorld, options: EntranceOptions): Board {
  const { seed } = options;
  const errorPpm = options.clockErrorPpm?.[board] ?? boardClockErrorPpm(seed, board);
  const clock = { bootS: options.bootS?.[board] ?? 0, rate: 1 / (1 + errorPpm * 1e-6) };
  const firstScanUs = options.firstScanUs?.[board] ?? SCAN_PERIOD_US;
  const worldS = (boardUs: number): number => clock.bootS + boardUs * 1e-6 * clock.rate;
  const timing = options.timing ?? SCAN_TIMING;
  const scan = board === 'fore' ? foreScan(world, seed, timing) : aftScan(world, seed, timing);
  const stream = `simulated/${board}/1`;
  const tickUs = (sequence: number): number => firstScanUs + sequence * SCAN_PERIOD_US;

  let sequence = 0;
  let number = 0;
  let blocks = 0;
  let pending: (number | null)[][] = [];

  const clockItem = (boardUs: number): StreamItem => ({
    type: 'board-clock',
    stream,
    number: number++,
    v: 1,
    boardUs,
    stationS: worldS(boardUs),
    rate: clock.rate,
    uncertaintyS: 0.0005,
  });

  const closeBlock = (items: StreamItem[]): void => {
    const firstSequence = sequence - pending.length;
    if (number === 0) items.push(openingOf(board, stream, clock.bootS, number++));
    if (blocks % CLOCK_ITEM_EVERY_BLOCKS === 0) items.push(clockItem(tickUs(firstSequence)));
    blocks++;
    items.push({
      type: 'samples',
      stream,
      number: number++,
      v: 1,
      firstSequence,
      firstBoardUs: tickUs(firstSequence),
      stepUs: pending.map((_, k) => (k === 0 ? 0 : SCAN_PERIOD_US)),
      columns: BOARD_CHANNELS[board].map((_, channel) =>
        pending.map((counts) => counts[channel] ?? null),
      ),
      faults: firstSequence === 0 ? faultsOfFirstScan(board) : [],
      skipped: 0,
      arrivedStationS: worldS(tickUs(sequence - 1)) + ON_THE_LINE_S,
    } satisfies SampleBlock);
    pending = [];
  };

  return {
    nextScanS: () => worldS(tickUs(sequence)),
    scanUntil(untilS, items) {
      while (worldS(tickUs(sequence)) < untilS) {
        const atUs = tickUs(sequence);
        const laterUs = sequence % 2 === 1 ? timing.oddLaterUs : 0;
        pending.push(scan(sequence, (afterTickUs) => worldS(atUs + afterTickUs + laterUs)));
        sequence++;
        if (pending.length === BLOCK_SAMPLES) closeBlock(items);
      }
    },
  };
}

/** In its first scan the converter has nothing yet: the starboard leg, which would be due, is missed. */
function faultsOfFirstScan(board: EntranceBoard): SampleBlock['faults'] {
  const channel = BOARD_CHANNELS[board].findIndex((one) => one.quantity === 'starboard');
  return channel < 0 ? [] : [[0, channel, 'chip-not-ready']];
}

function openingOf(
  board: EntranceBoard,
  stream: string,
  openedStationS: number,
  number: number,
): StreamOpened {
  if (number !== 0) throw new RangeError('an opening is item 0');
  return {
    type: 'stream-opened',
    stream,
    number,
    v: 1,
    station: 'simulated',
    board,
    boardIsOurs: true,
    resetCounter: 0,
    port: 'sample entrance',
    firmware: 'none',
    periodUs: SCAN_PERIOD_US,
    channels: [...BOARD_CHANNELS[board]],
    openedStationS,
  };
}

/** Each word is taken when its low byte is read, so x and y may be of two ticks. */
function inclinometerCounts(
  element: InclinometerElement,
  timing: ScanTiming,
  worldS: (afterTickUs: number) => number,
): number[] {
  return [
    element.read(worldS(timing.xUs)).xCounts,
    element.read(worldS(timing.yUs)).yCounts,
    element.read(worldS(timing.temperatureUs)).temperatureCounts,
  ];
}

function configured(world: SimulatedWorld, seed: number, instrument: string): InclinometerElement {
  const element = createInclinometerElement({ world, instrument, seed });
  element.configure(CHIP_SETTINGS, 0);
  return element;
}

function foreScan(world: SimulatedWorld, seed: number, timing: ScanTiming): Scan {
  const element = configured(world, seed, INSTRUMENTS.fore);
  return (_sequence, worldS) => inclinometerCounts(element, timing, worldS);
}

/** An even scan starts the port leg and carries the starboard leg's count, an odd one the reverse. */
function aftScan(world: SimulatedWorld, seed: number, timing: ScanTiming): Scan {
  const element = configured(world, seed, INSTRUMENTS.aft);
  const legs: VoltageElement = createLevelLegs({ world, instrument: INSTRUMENTS.tube, seed });
  const lastsS = conversionS(DATA_RATE_FIELD);
  let converting: { input: number; startS: number } | null = null;
  return (sequence, worldS) => {
    const counts: (number | null)[] = inclinometerCounts(element, timing, worldS);
    const legCounts: (number | null)[] = [null, null];
    if (converting !== null) {
      legCounts[converting.input] = convertedCounts(legs, converting.input, {
        startS: converting.startS,
        lastsS,
        pgaField: PGA_FIELD,
      });
    }
    converting = { input: sequence % 2, startS: worldS(timing.conversionStartUs) };
    return [...counts, ...legCounts];
  };
}
