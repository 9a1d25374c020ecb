import { UNKNOWN_RATE } from '#core/sample/clock-exchange.ts';
import { type LinearMap, linearMapTime, linearMapUncertaintyS } from '#core/time/linear-map.ts';

/** A pairing every half minute for a week. */
const MOST_PAIRINGS = 20_000;
const MOST_JUMPS = 1000;
/** Between two pairings the rate is taken as even; it wanders by less than this (common practice, no source). */
const WANDER = 10e-6;
/** Of two pairings that disagree by more than drift and so many of their uncertainties, one clock jumped. */
const COVER = 5;
const MOST_RATE_OFFSET = UNKNOWN_RATE * Math.sqrt(3);

/**
 * All pairings of one run of a station with the receiver, so that a time is mapped by those of its
 * own time, however late it is asked for. Jumps of the station's clock part them: a pairing holds
 * only between the jumps it lies between.
 */
export class Pairings {
  #maps: LinearMap[] = [];
  #jumpsS: number[] = [];

  /** Pairings come in order of station time; one that goes back replaces what it contradicts. */
  add(map: LinearMap): void {
    while ((this.#maps.at(-1)?.fromS ?? Number.NEGATIVE_INFINITY) >= map.fromS) this.#maps.pop();
    this.#maps.push(map);
    if (this.#maps.length > MOST_PAIRINGS) this.#maps.shift();
  }

  /** From this station time on the clock is another. */
  jumped(stationS: number): void {
    if (this.#jumpsS.includes(stationS)) return;
    this.#jumpsS.push(stationS);
    this.#jumpsS.sort((a, b) => a - b);
    if (this.#jumpsS.length > MOST_JUMPS) this.#jumpsS.shift();
  }

  get newest(): LinearMap | null {
    return this.#maps.at(-1) ?? null;
  }

  /** Station time of the last jump where no pairing has been made since; null: all is well. */
  get unpairedSinceS(): number | null {
    const jumpS = this.#jumpsS.at(-1);
    const newest = this.newest;
    if (jumpS === undefined || newest === null || newest.fromS >= jumpS) return null;
    return jumpS;
  }

  /**
   * The map for times near `stationS`, of a clock that last jumped at `jumpedS` (null: never);
   * null while there is none yet.
   */
  at(stationS: number, jumpedS: number | null): LinearMap | null {
    const fromS = jumpedS ?? Number.NEGATIVE_INFINITY;
    const untilS = this.#jumpsS.find((jumpS) => jumpS > fromS) ?? Number.POSITIVE_INFINITY;
    // From the end: what is asked for is nearly always newest.
    let at = this.#maps.length - 1;
    while (at >= 0 && (this.#maps[at]!.fromS > stationS || this.#maps[at]!.fromS >= untilS)) at--;
    const held = (map: LinearMap | undefined): LinearMap | null =>
      map !== undefined && map.fromS >= fromS && map.fromS < untilS ? map : null;
    const earlier = held(this.#maps[at]);
    const later = held(this.#maps[at + 1]);
    if (earlier === null) return later ?? this.#neverPaired(stationS, fromS);
    return later === null ? earlier : between(earlier, later, stationS);
  }

  /** A clock that jumped again before it was paired: its offset is between those of before and after. */
  #neverPaired(stationS: number, jumpedS: number): LinearMap | null {
    const later = this.#maps.find(({ fromS }) => fromS > Math.max(jumpedS, stationS));
    if (later === undefined) return null;
    const earlier = this.#maps.findLast(({ fromS }) => fromS < jumpedS);
    const asideS =
      earlier === undefined
        ? Number.POSITIVE_INFINITY
        : Math.abs(linearMapTime(later, stationS) - linearMapTime(earlier, stationS));
    return { ...later, uncertaintyS: later.uncertaintyS + asideS };
  }
}

function between(earlier: LinearMap, later: LinearMap, stationS: number): LinearMap {
  const spanS = later.fromS - earlier.fromS;
  const rate = (later.toS - earlier.toS) / spanS;
  const unsureS = Math.hypot(earlier.uncertaintyS, later.uncertaintyS);
  if (Math.abs(rate - 1) * spanS > MOST_RATE_OFFSET * spanS + COVER * unsureS) {
    const asideS = Math.abs(linearMapTime(later, stationS) - linearMapTime(earlier, stationS));
    return { ...earlier, uncertaintyS: earlier.uncertaintyS + asideS };
  }
  const best = [earlier, later].reduce((one, other) =>
    linearMapUncertaintyS(other, stationS) < linearMapUncertaintyS(one, stationS) ? other : one,
  );
  const nearestS = Math.min(stationS - earlier.fromS, later.fromS - stationS);
  const share = (stationS - earlier.fromS) / spanS;
  const joinedS = Math.hypot(
    (1 - share) * earlier.uncertaintyS,
    share * later.uncertaintyS,
    WANDER * nearestS,
  );
  if (linearMapUncertaintyS(best, stationS) < joinedS) return best;
  return {
    fromS: stationS,
    toS: earlier.toS + (stationS - earlier.fromS) * rate,
    rate,
    uncertaintyS: joinedS,
    rateUncertainty: Math.hypot(WANDER, unsureS / spanS),
  };
}
