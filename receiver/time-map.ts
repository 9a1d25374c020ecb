import type { LineRead } from '#core/record/read-line.ts';
import type { SampleBlock } from '#core/sample/stream-item.ts';
import { type LinearMap, linearMapThrough, linearMapTime } from '#core/time/linear-map.ts';

/** A stretch of a stream in receiver time, with the standard uncertainty of each of its times. */
export interface BlockTimes {
  readonly atS: Float64Array;
  readonly uncertaintyS: number;
}

/**
 * Receiver time of samples: board to station by the stream's own `board-clock` items, station to
 * receiver by the `station-clock` lines. Follows the record's lines, so that live and replayed
 * samples get the same times; the samples themselves are never restamped.
 */
export class TimeMap {
  readonly #boards = new Map<string, LinearMap>();
  /** By station and run: another start of the program is another clock. */
  readonly #runs = new Map<string, LinearMap>();
  /** The run each stream's station times are in. */
  readonly #runOf = new Map<string, string>();
  readonly #newest = new Map<string, { readonly run: string; readonly map: LinearMap }>();

  follow({ line }: LineRead): void {
    if (line.kind === 'station-clock') {
      const { station, run, stationS, receiverS, rate, uncertaintyS } = line.body;
      const map = { fromS: stationS, toS: receiverS, rate, uncertaintyS };
      this.#runs.set(`${station} ${run}`, map);
      this.#newest.set(station, { run, map });
    } else if (line.kind === 'board-clock') {
      const { stream, boardUs, stationS, rate, uncertaintyS } = line.body;
      this.#boards.set(stream, { fromS: boardUs * 1e-6, toS: stationS, rate, uncertaintyS });
    } else if (line.kind === 'stream-opened') {
      const { stream, station, run } = line.body;
      // Without its run a stream is of the run that sends it, which is the one paired last.
      const of = run ?? this.#newest.get(station)?.run;
      if (of !== undefined) this.#runOf.set(stream, `${station} ${of}`);
    } else if (line.kind === 'stream-closed') {
      this.#boards.delete(line.body.stream);
      this.#runOf.delete(line.body.stream);
    }
  }

  /** Station to receiver time in use, of this start of the station's program; null before its first exchange. */
  stationMap(station: string, run: string): LinearMap | null {
    return this.#runs.get(`${station} ${run}`) ?? null;
  }

  /** Standard uncertainty of the pairing in use; null: none yet. */
  uncertaintyOf(station: string): number | null {
    return this.#newest.get(station)?.map.uncertaintyS ?? null;
  }

  /** Receiver times of a block's samples; null while its board, or its station's run, is not paired. */
  timesOf(block: SampleBlock): BlockTimes | null {
    const run = this.#runOf.get(block.stream);
    const newest = this.#newest.get(block.stream.slice(0, block.stream.indexOf('/')));
    const station = run === undefined ? newest?.map : this.#runs.get(run);
    const board = this.#boards.get(block.stream);
    if (station === undefined || board === undefined) return null;
    const map = linearMapThrough(board, station);
    const atS = new Float64Array(block.stepUs.length);
    let boardUs = block.firstBoardUs;
    for (const [index, stepUs] of block.stepUs.entries()) {
      if (index > 0) boardUs += stepUs;
      atS[index] = linearMapTime(map, boardUs * 1e-6);
    }
    return { atS, uncertaintyS: map.uncertaintyS };
  }
}
