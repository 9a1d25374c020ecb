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
const CLOCK_UNCERTAINTY_S = 0.0005;
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
  const boards = (['fore', 'aft'] as const).map((board) => new Board(board, world, options));
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

/** Counts of one scan, one a channel; `worldS` turns microseconds after its tick into world time. */
type Scan = (sequence: number, worldS: (afterTickUs: number) => number) => (number | null)[];

/** One board as the station sees it: scans gathered into the items of one stream. */
class Board {
  readonly #board: EntranceBoard;
  readonly #stream: string;
  readonly #bootS: number;
  readonly #rate: number;
  readonly #firstScanUs: number;
  readonly #timing: ScanTiming;
  readonly #scan: Scan;
  #sequence = 0;
  #number = 0;
  #blocks = 0;
  #pending: (number | null)[][] = [];

  constructor(board: EntranceBoard, world: SimulatedWorld, options: EntranceOptions) {
    const { seed } = options;
    const errorPpm = options.clockErrorPpm?.[board] ?? boardClockErrorPpm(seed, board);
    this.#board = board;
    this.#stream = `simulated/${board}/1`;
    this.#bootS = options.bootS?.[board] ?? 0;
    this.#rate = 1 / (1 + errorPpm * 1e-6);
    this.#firstScanUs = options.firstScanUs?.[board] ?? SCAN_PERIOD_US;
    this.#timing = options.timing ?? SCAN_TIMING;
    const scan = board === 'fore' ? foreScan : aftScan;
    this.#scan = scan(world, seed, this.#timing);
  }

  nextScanS(): number {
    return this.#worldS(this.#tickUs(this.#sequence));
  }

  scanUntil(untilS: number, items: StreamItem[]): void {
    while (this.nextScanS() < untilS) {
      const laterUs = this.#sequence % 2 === 1 ? this.#timing.oddLaterUs : 0;
      const atUs = this.#tickUs(this.#sequence) + laterUs;
      this.#pending.push(this.#scan(this.#sequence, (afterUs) => this.#worldS(atUs + afterUs)));
      this.#sequence++;
      if (this.#pending.length === BLOCK_SAMPLES) this.#closeBlock(items);
    }
  }

  #worldS(boardUs: number): number {
    return this.#bootS + boardUs * 1e-6 * this.#rate;
  }

  #tickUs(sequence: number): number {
    return this.#firstScanUs + sequence * SCAN_PERIOD_US;
  }

  #closeBlock(items: StreamItem[]): void {
    const pending = this.#pending;
    const firstSequence = this.#sequence - pending.length;
    const firstBoardUs = this.#tickUs(firstSequence);
    if (firstSequence === 0) {
      items.push(openingOf(this.#board, this.#stream, this.#bootS));
      this.#number = 1;
    }
    if (this.#blocks % CLOCK_ITEM_EVERY_BLOCKS === 0) items.push(this.#clockItem(firstBoardUs));
    this.#blocks++;
    items.push({
      type: 'samples',
      stream: this.#stream,
      number: this.#number++,
      v: 1,
      firstSequence,
      firstBoardUs,
      stepUs: pending.map((_, k) => (k === 0 ? 0 : SCAN_PERIOD_US)),
      columns: BOARD_CHANNELS[this.#board].map((_, channel) =>
        pending.map((counts) => counts[channel] ?? null),
      ),
      faults: firstSequence === 0 ? faultsOfFirstScan(this.#board) : [],
      skipped: 0,
      arrivedStationS: this.#worldS(this.#tickUs(this.#sequence - 1)) + ON_THE_LINE_S,
    });
    this.#pending = [];
  }

  #clockItem(boardUs: number): StreamItem {
    return {
      type: 'board-clock',
      stream: this.#stream,
      number: this.#number++,
      v: 1,
      boardUs,
      stationS: this.#worldS(boardUs),
      rate: this.#rate,
      uncertaintyS: CLOCK_UNCERTAINTY_S,
    };
  }
}

/** In its first scan the converter has nothing yet: the starboard leg, which would be due, is missed. */
function faultsOfFirstScan(board: EntranceBoard): SampleBlock['faults'] {
  const channel = BOARD_CHANNELS[board].findIndex((one) => one.quantity === 'starboard');
  return channel < 0 ? [] : [[0, channel, 'chip-not-ready']];
}

function openingOf(board: EntranceBoard, stream: string, openedStationS: number): StreamOpened {
  return {
    type: 'stream-opened',
    stream,
    number: 0,
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
