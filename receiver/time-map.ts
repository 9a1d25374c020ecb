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
  readonly #stations = new Map<string, { run: string; map: LinearMap }>();

  follow({ line }: LineRead): void {
    if (line.kind === 'station-clock') {
      const { station, run, stationS, receiverS, rate, uncertaintyS } = line.body;
      this.#stations.set(station, {
        run,
        map: { fromS: stationS, toS: receiverS, rate, uncertaintyS },
      });
    } else if (line.kind === 'board-clock') {
      const { stream, boardUs, stationS, rate, uncertaintyS } = line.body;
      this.#boards.set(stream, { fromS: boardUs * 1e-6, toS: stationS, rate, uncertaintyS });
    } else if (line.kind === 'stream-closed') this.#boards.delete(line.body.stream);
  }

  /** Station to receiver time in use, of this start of the station's program; null before its first exchange. */
  stationMap(station: string, run: string): LinearMap | null {
    const known = this.#stations.get(station);
    return known !== undefined && known.run === run ? known.map : null;
  }

  /**
   * Receiver times of a block's samples; null while its station or board is not paired yet.
   * Blocks of a stream are told apart from another run's by their station's newest pairing.
   */
  timesOf(block: SampleBlock): BlockTimes | null {
    const station = this.#stations.get(block.stream.slice(0, block.stream.indexOf('/')));
    const board = this.#boards.get(block.stream);
    if (station === undefined || board === undefined) return null;
    const map = linearMapThrough(board, station.map);
    const atS = new Float64Array(block.stepUs.length);
    let boardUs = block.firstBoardUs;
    for (const [index, stepUs] of block.stepUs.entries()) {
      if (index > 0) boardUs += stepUs;
      atS[index] = linearMapTime(map, boardUs * 1e-6);
    }
    return { atS, uncertaintyS: map.uncertaintyS };
  }
}
