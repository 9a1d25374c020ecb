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

/** An arrival so far under the line is no delay (none is negative), and so far over it for so long neither. */
const JUMP_S = 0.1;
/** Board rates wander; three times the limit is beyond what may be. */
const MOST_WANDER = 3 * 200e-6;
/** Arrivals that are all late for so long, and all alike, are those of a clock that jumped ahead. */
const LATE_FOR_S = 5;
/** A line to hold arrivals against is made anew after so much board time. */
const LINE_FOR_S = 5;
/** The least delay of the last arrivals over this long says whether the line still holds. */
const RECENT_S = 1;
const FEWEST_ARRIVALS = 20;
/** What a machine that has just woken may hold back (our setting). */
const JUST_WOKEN_S = 0.3;

/** Station time of a board time: `stationS + (us - boardUs) * 1e-6 * rate`. */
export interface ClockMapping {
  readonly boardUs: number;
  readonly stationS: number;
  readonly rate: number;
  /** Standard uncertainty of a time mapped within the next ten seconds. */
  readonly uncertaintyS: number;
  /** Standard uncertainty of the rate. */
  readonly rateUncertainty: number;
  /** Station time of the last jump of the station's clock against the board's; missing: none. */
  readonly stationJumpedS?: number;
}

/** Arrivals that have all been late, since when, and by how much at the least in each half. */
interface Late {
  readonly sinceS: number;
  earlier: number;
  later: number;
}

/**
 * Maps one board's microseconds (unwrapped) to station seconds from when its scans arrive.
 * A scan arrives late by an unknown delay that is never negative, so the two clocks are related
 * by the line below all arrivals. Its uncertainty is the height over that line under which a
 * tenth of the arrivals lie: the more often a scan comes nearly undelayed, the better it is known.
 * Where the station's clock stood still (asleep) or jumped, arrivals from before are dropped:
 * they were of another clock.
 */
export class ClockMap {
  #boardS: number[] = [];
  #arrivedS: number[] = [];
  #line: ClockMapping | null = null;
  #late: Late | null = null;
  #jumpedS: number | null = null;

  /**
   * @param boardUs board time of the scan, unwrapped
   * @param arrivedS station time of its arrival, less what its own transmission must have taken
   * @returns `jumped` when this scan shows that the station's clock is another than before
   */
  add(boardUs: number, arrivedS: number): 'same' | 'jumped' {
    const boardS = boardUs * 1e-6;
    const jumped = this.#jumpAt(boardS, arrivedS);
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
    return jumped ? 'jumped' : 'same';
  }

  /** The mapping at the newest scan; null while there are too few arrivals, unless the clock jumped. */
  mapping(): ClockMapping | null {
    const count = this.#boardS.length;
    const first = this.#boardS[0];
    const newest = this.#boardS[count - 1];
    if (first === undefined || newest === undefined) return null;
    if (count < FEWEST_ARRIVALS && this.#jumpedS === null) return null;
    const byRate = newest - first < SHORTEST_FOR_RATE_S ? null : this.#byRate(newest);
    const mapping = byRate ?? this.#byLeastDelay(newest);
    return this.#jumpedS === null ? mapping : { ...mapping, stationJumpedS: this.#jumpedS };
  }

  /** Whether the station's clock jumped before this arrival; then those before it are dropped. */
  #jumpAt(boardS: number, arrivedS: number): boolean {
    const lineAgeS = boardS - (this.#line?.boardUs ?? Number.NEGATIVE_INFINITY) * 1e-6;
    if (lineAgeS > LINE_FOR_S && this.#boardS.length >= FEWEST_ARRIVALS && this.#late === null)
      this.#line = this.mapping();
    const line = this.#line;
    if (line === null) return false;
    const sinceS = boardS - line.boardUs * 1e-6;
    const heightS = arrivedS - line.stationS - sinceS * line.rate;
    const mayS = JUMP_S + 3 * line.uncertaintyS + sinceS * (3 * line.rateUncertainty + MOST_WANDER);
    if (heightS < -mayS) {
      this.#beginAnew(boardS, arrivedS);
      return true;
    }
    if (heightS <= mayS) this.#late = null;
    else return this.#stillLate(boardS, heightS);
    return false;
  }

  /** A stall ends in a burst of ever less delay; a clock that jumped ahead stays where it is. */
  #stillLate(boardS: number, heightS: number): boolean {
    this.#late ??= { sinceS: boardS, earlier: Infinity, later: Infinity };
    const late = this.#late;
    const forS = boardS - late.sinceS;
    if (forS < LATE_FOR_S / 2) late.earlier = Math.min(late.earlier, heightS);
    else late.later = Math.min(late.later, heightS);
    if (forS < LATE_FOR_S) return false;
    this.#late = null;
    if (Math.abs(late.later - late.earlier) > JUMP_S) return false;
    const from = this.#boardS.findIndex((earlierS) => earlierS >= late.sinceS);
    this.#beginAnew(late.sinceS, this.#arrivedS[from]!);
    return true;
  }

  #beginAnew(fromBoardS: number, stationS: number): void {
    const from = this.#boardS.findIndex((boardS) => boardS >= fromBoardS);
    this.#boardS = from < 0 ? [] : this.#boardS.slice(from);
    this.#arrivedS = from < 0 ? [] : this.#arrivedS.slice(from);
    this.#line = null;
    this.#late = null;
    this.#jumpedS = stationS;
  }

  #byRate(newestS: number): ClockMapping | null {
    const line = lowerEnvelopeLine(this.#boardS, this.#arrivedS);
    if (Math.abs(line.slope - 1) > MOST_RATE_ERROR) return null;
    const usual = lowestTenth(line.heights);
    const halfSpanS = newestS - line.atX;
    const rateUncertainty = Math.hypot(
      usual / halfSpanS,
      (MOST_WANDER_PER_S * halfSpanS) / Math.sqrt(3),
    );
    const wanderS = (MOST_WANDER_PER_S * halfSpanS ** 2) / 2 / Math.sqrt(3);
    return {
      boardUs: Math.round(newestS * 1e6),
      stationS: line.y + line.slope * (newestS - line.atX),
      rate: line.slope,
      uncertaintyS: Math.hypot(
        usual,
        (usual / halfSpanS) * MAP_EVERY_S,
        wanderS,
        this.#leastOfRecent(line.heights, newestS),
      ),
      rateUncertainty,
    };
  }

  /** While every arrival of late stands over the line, who knows whether it still holds. */
  #leastOfRecent(heights: Float64Array, newestS: number): number {
    let least = Infinity;
    for (let i = heights.length - 1; i >= 0 && this.#boardS[i]! >= newestS - RECENT_S; i--)
      least = Math.min(least, heights[i]!);
    return Math.max(0, least);
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
      uncertaintyS: Math.hypot(
        usual,
        UNKNOWN_RATE * (MAP_EVERY_S + SHORTEST_FOR_RATE_S / 2),
        offsets.length < FEWEST_ARRIVALS ? JUST_WOKEN_S : 0,
      ),
      rateUncertainty: UNKNOWN_RATE,
    };
  }
}

/** The height under which a tenth of the arrivals lie. */
function lowestTenth(heights: Float64Array): number {
  const sorted = heights.slice().sort();
  return Math.max(0, sorted[Math.floor(sorted.length / 10)] ?? 0);
}
