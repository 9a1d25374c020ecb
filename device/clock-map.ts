import { lowerEnvelopeLine } from '#core/numerics/lower-envelope.ts';

/** Arrivals of this much board time are looked at; longer would mix in the resonator's wander. */
const WINDOW_S = 60;
/** Under this span a rate cannot be told from delays. */
const SHORTEST_FOR_RATE_S = 10;
/** Ceramic resonators are sold at +-5000 ppm over everything; 500 more for the station's crystal and wander. */
const MOST_RATE_ERROR = 0.0055;
/** Standard deviation of a rate known only to lie within the limit (rectangular, JCGM 100 4.3.7). */
const UNKNOWN_RATE = MOST_RATE_ERROR / Math.sqrt(3);
/** A map is used until the next one comes. */
export const MAP_EVERY_S = 10;
const MOST_ARRIVALS = 20_000;
/** Change of rate a second: 200 ppm of wander round in ten minutes (the worst the tests ask for). */
const MOST_WANDER_PER_S = (200e-6 * 2 * Math.PI) / 600;

/** Station time of a board time: `stationS + (us - boardUs) * 1e-6 * rate`. */
export interface ClockMapping {
  readonly boardUs: number;
  readonly stationS: number;
  readonly rate: number;
  /** Standard uncertainty of a time mapped within the next ten seconds. */
  readonly uncertaintyS: number;
}

/**
 * Maps one board's microseconds (unwrapped) to station seconds from when its scans arrive.
 * A scan arrives late by an unknown delay that is never negative, so the two clocks are related
 * by the line below all arrivals. Its uncertainty is the height over that line under which a
 * tenth of the arrivals lie: the more often a scan comes nearly undelayed, the better it is known.
 */
export class ClockMap {
  readonly #boardS: number[] = [];
  readonly #arrivedS: number[] = [];

  /**
   * @param boardUs board time of the scan, unwrapped
   * @param arrivedS station time of its arrival, less what its own transmission must have taken
   */
  add(boardUs: number, arrivedS: number): void {
    const boardS = boardUs * 1e-6;
    this.#boardS.push(boardS);
    this.#arrivedS.push(arrivedS);
    let drop = 0;
    while (this.#boardS[drop]! < boardS - WINDOW_S) drop++;
    drop = Math.max(drop, this.#boardS.length - MOST_ARRIVALS);
    // Cut now and then only: cutting a long column at each scan would cost its length every time.
    if (drop > 256) {
      this.#boardS.splice(0, drop);
      this.#arrivedS.splice(0, drop);
    }
  }

  /** The mapping at the newest scan; null while there are too few arrivals. */
  mapping(): ClockMapping | null {
    const count = this.#boardS.length;
    const first = this.#boardS[0];
    const newest = this.#boardS[count - 1];
    if (first === undefined || newest === undefined || count < 20) return null;
    const byRate = newest - first < SHORTEST_FOR_RATE_S ? null : this.#byRate(newest);
    return byRate ?? this.#byLeastDelay(newest);
  }

  #byRate(newestS: number): ClockMapping | null {
    const line = lowerEnvelopeLine(this.#boardS, this.#arrivedS);
    if (Math.abs(line.slope - 1) > MOST_RATE_ERROR) return null;
    const usual = lowestTenth(line.heights);
    const halfSpanS = newestS - line.atX;
    const rateUncertainty = usual / halfSpanS;
    const wanderS = (MOST_WANDER_PER_S * halfSpanS ** 2) / 2 / Math.sqrt(3);
    return {
      boardUs: Math.round(newestS * 1e6),
      stationS: line.y + line.slope * (newestS - line.atX),
      rate: line.slope,
      uncertaintyS: Math.hypot(usual, rateUncertainty * MAP_EVERY_S, wanderS),
    };
  }

  /** Too short, or too unevenly delayed, for a rate: the least delayed of the newest arrivals. */
  #byLeastDelay(newestS: number): ClockMapping {
    const offsets: number[] = [];
    for (let i = this.#boardS.length - 1; i >= 0; i--) {
      if (this.#boardS[i]! < newestS - SHORTEST_FOR_RATE_S) break;
      offsets.push(this.#arrivedS[i]! - this.#boardS[i]!);
    }
    const least = offsets.reduce((lowest, offset) => Math.min(lowest, offset), Infinity);
    const usual = lowestTenth(Float64Array.from(offsets, (offset) => offset - least));
    return {
      boardUs: Math.round(newestS * 1e6),
      stationS: newestS + least,
      rate: 1,
      uncertaintyS: Math.hypot(usual, UNKNOWN_RATE * (MAP_EVERY_S + SHORTEST_FOR_RATE_S / 2)),
    };
  }
}

/** The height under which a tenth of the arrivals lie. */
function lowestTenth(heights: Float64Array): number {
  const sorted = heights.slice().sort();
  return Math.max(0, sorted[Math.floor(sorted.length / 10)] ?? 0);
}
