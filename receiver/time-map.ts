import type { LineRead } from '#core/record/read-line.ts';
import type { BoardClock, SampleBlock } from '#core/sample/stream-item.ts';
import {
  type LinearMap,
  linearMapFrom,
  linearMapThrough,
  linearMapTime,
} from '#core/time/linear-map.ts';
import { Pairings } from './pairings.ts';

/** A stretch of a stream in receiver time, with the standard uncertainty of each of its times. */
export interface BlockTimes {
  readonly atS: Float64Array;
  readonly uncertaintyS: number;
}

/** A board's clock in station time, and which of the station's clocks that is. */
export interface BoardMap {
  readonly map: LinearMap;
  /** Station time of the last jump of the station's clock before; null: none in this run. */
  readonly stationJumpedS: number | null;
}

/** Of maps that do not say (older records): a resonator's wander, and two crystals that differ. */
const BOARD_RATE_UNCERTAINTY = 200e-6;
const STATION_RATE_UNCERTAINTY = 100e-6;

/**
 * Receiver time of samples: board to station by the stream's own `board-clock` items, station to
 * receiver by the `station-clock` lines around that station time. Follows the record's lines, so
 * that live and replayed samples get the same times; the samples themselves are never restamped.
 */
export class TimeMap {
  readonly #boards = new Map<string, BoardMap>();
  /** By station and run: another start of the program is another clock. */
  readonly #runs = new Map<string, Pairings>();
  /** The run each stream's station times are in. */
  readonly #runOf = new Map<string, string>();
  readonly #newest = new Map<string, { readonly run: string; readonly map: LinearMap }>();

  follow({ line }: LineRead): void {
    if (line.kind === 'station-clock') {
      const { station, run, stationS, receiverS, rate, uncertaintyS, rateUncertainty } = line.body;
      const map = {
        fromS: stationS,
        toS: receiverS,
        rate,
        uncertaintyS,
        rateUncertainty: rateUncertainty ?? STATION_RATE_UNCERTAINTY,
      };
      this.#pairingsOf(`${station} ${run}`).add(map);
      this.#newest.set(station, { run, map });
    } else if (line.kind === 'board-clock') {
      this.#boardClock(line.body);
    } else if (line.kind === 'stream-opened') {
      const { stream, station, run } = line.body;
      // Without its run a stream is of the run that sends it, which is the one paired last.
      const of = run ?? this.#newest.get(station)?.run;
      if (of !== undefined) this.#runOf.set(stream, `${station} ${of}`);
    } else if (line.kind === 'stream-closed') {
      this.#boards.delete(line.body.stream);
    }
  }

  /** Station to receiver time in use, of this start of the station's program; null before its first exchange. */
  stationMap(station: string, run: string): LinearMap | null {
    return this.#runs.get(`${station} ${run}`)?.newest ?? null;
  }

  /** Station time of a jump of the station's clock after which it has not been paired; null: none. */
  unpairedSinceS(station: string, run: string): number | null {
    return this.#runs.get(`${station} ${run}`)?.unpairedSinceS ?? null;
  }

  /** Standard uncertainty of the pairing in use; null: none yet. */
  uncertaintyOf(station: string): number | null {
    return this.#newest.get(station)?.map.uncertaintyS ?? null;
  }

  /** Standard uncertainty of the rate of the worst clock that runs now; 0 without any. */
  get rateUncertainty(): number {
    return Math.max(0, ...this.#running().map((map) => map.rateUncertainty));
  }

  /** Standard uncertainty of the newest times of samples, of the worst stream; null without any. */
  get timeUncertaintyS(): number | null {
    const maps = this.#running();
    return maps.length === 0 ? null : Math.max(...maps.map((map) => map.uncertaintyS));
  }

  /** Board to receiver of every open stream whose clocks are paired, where its board's map is newest. */
  #running(): LinearMap[] {
    return [...this.#boards].flatMap(([stream, { map, stationJumpedS }]) => {
      const station = this.#pairingsFor(stream)?.at(map.toS, stationJumpedS) ?? null;
      return station === null ? [] : [linearMapThrough(map, station)];
    });
  }

  /** The map of a stream's board in use; null before its first. */
  boardMap(stream: string): BoardMap | null {
    return this.#boards.get(stream) ?? null;
  }

  /**
   * Receiver times of a block's samples by the map its board had when the block came; null while
   * its board, or its station's run, is not paired.
   */
  timesOf(block: SampleBlock, board = this.boardMap(block.stream)): BlockTimes | null {
    if (board === null) return null;
    const boardNear = linearMapFrom(board.map, block.firstBoardUs * 1e-6);
    const station =
      this.#pairingsFor(block.stream)?.at(boardNear.toS, board.stationJumpedS) ?? null;
    if (station === null) return null;
    const map = linearMapThrough(boardNear, station);
    const atS = new Float64Array(block.stepUs.length);
    let boardUs = block.firstBoardUs;
    for (const [index, stepUs] of block.stepUs.entries()) {
      if (index > 0) boardUs += stepUs;
      atS[index] = linearMapTime(map, boardUs * 1e-6);
    }
    return { atS, uncertaintyS: map.uncertaintyS };
  }

  #boardClock(clock: BoardClock): void {
    const { stream, boardUs, stationS, rate, uncertaintyS, rateUncertainty } = clock;
    const map = {
      fromS: boardUs * 1e-6,
      toS: stationS,
      rate,
      uncertaintyS,
      rateUncertainty: rateUncertainty ?? BOARD_RATE_UNCERTAINTY,
    };
    const stationJumpedS = clock.stationJumpedS ?? null;
    this.#boards.set(stream, { map, stationJumpedS });
    const run = this.#runOf.get(stream);
    if (stationJumpedS !== null && run !== undefined) this.#pairingsOf(run).jumped(stationJumpedS);
  }

  #pairingsOf(run: string): Pairings {
    let pairings = this.#runs.get(run);
    if (pairings === undefined) {
      pairings = new Pairings();
      this.#runs.set(run, pairings);
    }
    return pairings;
  }

  #pairingsFor(stream: string): Pairings | undefined {
    const run = this.#runOf.get(stream);
    if (run !== undefined) return this.#runs.get(run);
    const station = stream.slice(0, stream.indexOf('/'));
    const newest = this.#newest.get(station);
    return newest && this.#runs.get(`${station} ${newest.run}`);
  }
}
