import { type LinearMap, linearMapTime } from './linear-map.ts';

/** One exchange seen from the receiver. */
export interface Exchange {
  readonly sentStationS: number;
  readonly receivedReceiverS: number;
  /** The reply to the exchange before: when it left, and when the station had it. Null: not known. */
  readonly earlierReply: {
    readonly repliedReceiverS: number;
    readonly returnedStationS: number;
  } | null;
}

/** Exchanges looked back at: enough for a quiet one among them, few enough to follow a drift. */
const MOST_EXCHANGES = 64;
/** Two crystals or a stepped system clock differ by less; beyond it the pairing begins anew. */
const MOST_STEP_S = 0.5;
const REFINED_BY = 4;
/** A map is bent towards the newest evidence over this long, never stepped. */
const BEND_OVER_S = 30;
/** A rate is only fitted over a base at least this long. */
const LEAST_BASE_S = 60;
const MOST_RATE_OFFSET = 500e-6;
/** On loopback or one local network no message in 64 takes longer at the least (common practice, no source). */
const MOST_LEAST_DELAY_S = 0.2;

/**
 * Pairs a station's monotonic clock with the receiver's. A message takes time but never less
 * than none, so the receiver's time minus the station's on the way here is at least the true
 * offset, and on the way back at most; the closest of many of each bound it: two envelopes. The
 * middle is taken, half of what lies between over root 3 is the uncertainty (rectangular).
 */
export class ClockExchange {
  readonly #exchanges: Exchange[] = [];
  #map: LinearMap | null = null;

  /** The map in use, or null before the first exchange. */
  get map(): LinearMap | null {
    return this.#map;
  }

  /** Goes on from a map of the same run that a record holds. */
  resume(map: LinearMap): void {
    this.#map = map;
  }

  /** Takes an exchange; the map begins or stays as it is until `renew`. */
  add(exchange: Exchange): void {
    this.#exchanges.push(exchange);
    if (this.#exchanges.length > MOST_EXCHANGES) this.#exchanges.shift();
    if (this.#map === null) this.renew();
  }

  /**
   * A new map through the newest exchange, continuous with the one before and bent towards the
   * evidence; where they disagree by more than half a second (a clock stepped), or the evidence
   * has become far better (the first exchange knows no way back), it starts afresh.
   * Null without exchanges.
   */
  renew(): LinearMap | null {
    const newest = this.#exchanges.at(-1);
    if (newest === undefined) return null;
    const seen = this.#evidence(newest.sentStationS);
    const before = this.#map;
    const continued = before === null ? Infinity : linearMapTime(before, seen.fromS);
    const refined = before !== null && seen.uncertaintyS < before.uncertaintyS / REFINED_BY;
    if (refined || Math.abs(continued - seen.toS) > MOST_STEP_S) {
      this.#map = seen;
      return seen;
    }
    this.#map = {
      fromS: seen.fromS,
      toS: continued,
      rate: seen.rate + (seen.toS - continued) / BEND_OVER_S,
      uncertaintyS: Math.hypot(seen.uncertaintyS, seen.toS - continued),
    };
    return this.#map;
  }

  /** What the exchanges alone say at a station time. */
  #evidence(stationS: number): LinearMap {
    const rate = this.#rate();
    let least = Infinity;
    let most = -Infinity;
    for (const exchange of this.#exchanges) {
      const drift = (stationS - exchange.sentStationS) * (rate - 1);
      const offset = exchange.receivedReceiverS - exchange.sentStationS + drift;
      if (offset < least) least = offset;
      if (exchange.earlierReply !== null) {
        const { repliedReceiverS, returnedStationS } = exchange.earlierReply;
        const bound =
          repliedReceiverS - returnedStationS + (stationS - returnedStationS) * (rate - 1);
        if (bound > most) most = bound;
      }
    }
    const width = Math.min(MOST_LEAST_DELAY_S, Math.max(0, least - most));
    return {
      fromS: stationS,
      toS: stationS + least - width / 2,
      rate,
      uncertaintyS: width / 2 / Math.sqrt(3),
    };
  }

  /** Slope of the lower envelope: between the quietest exchange of each half. */
  #rate(): number {
    const half = Math.floor(this.#exchanges.length / 2);
    const first = quietest(this.#exchanges.slice(0, half));
    const last = quietest(this.#exchanges.slice(half));
    if (first === null || last === null) return 1;
    const base = last.sentStationS - first.sentStationS;
    if (base < LEAST_BASE_S) return 1;
    const rate = (last.receivedReceiverS - first.receivedReceiverS) / base;
    return Math.abs(rate - 1) > MOST_RATE_OFFSET ? 1 : rate;
  }
}

function quietest(exchanges: readonly Exchange[]): Exchange | null {
  let best: Exchange | null = null;
  for (const exchange of exchanges) {
    const offset = exchange.receivedReceiverS - exchange.sentStationS;
    if (best === null || offset < best.receivedReceiverS - best.sentStationS) best = exchange;
  }
  return best;
}
