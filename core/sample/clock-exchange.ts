import { lowerEnvelopeLine } from '../numerics/lower-envelope.ts';
import { type LinearMap, linearMapTime } from '../time/linear-map.ts';

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
const LEAST_BASE_S = 20;
/** Two crystals differ by less (common practice, no source). */
const MOST_RATE_OFFSET = 500e-6;
/** Standard deviation of a rate known only to lie within that (rectangular, JCGM 100 4.3.7). */
export const UNKNOWN_RATE = MOST_RATE_OFFSET / Math.sqrt(3);
/** A rate fitted over a minute or two holds on to about this (our setting). */
const LEAST_RATE_UNCERTAINTY = 1e-6;
/** Rounding of times handed over as decimals. */
const ROUNDING_S = 1e-6;
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
  /** Station time of the last jump that was told of. */
  #anewFromS: number | null = null;

  /** The map in use, or null before the first exchange. */
  get map(): LinearMap | null {
    return this.#map;
  }

  /** Goes on from a map of the same run that a record holds. */
  resume(map: LinearMap): void {
    this.#map = map;
  }

  /**
   * Takes an exchange; the map begins or stays as it is until `renew`. `jumped`: no pair of clocks
   * that only drift gives this exchange and those before, so one of them jumped, and those before
   * are forgotten.
   */
  add(exchange: Exchange): 'same' | 'jumped' {
    const jumped = this.#exchanges.some((earlier) => contradict(earlier, exchange));
    if (jumped) this.#exchanges.length = 0;
    const back = exchange.earlierReply;
    // A reply of before a jump bounds nothing after it. One whose exchange is not held may be so.
    const holds = this.#anewFromS === null || (back?.returnedStationS ?? 0) >= this.#anewFromS;
    const bounds = holds && !contradict(exchange, exchange);
    this.#exchanges.push(bounds ? exchange : { ...exchange, earlierReply: null });
    if (this.#exchanges.length > MOST_EXCHANGES) this.#exchanges.shift();
    if (this.#map === null) this.renew();
    return jumped ? 'jumped' : 'same';
  }

  /** Drops exchanges of before a jump of the station's clock that is known otherwise. */
  forgetBefore(stationS: number): void {
    this.#anewFromS = stationS;
    const after = this.#exchanges.filter(({ sentStationS }) => sentStationS >= stationS);
    this.#exchanges.length = 0;
    for (const exchange of after) this.add(exchange);
  }

  /** Whether the exchanges bound the offset from both sides. */
  get knowsBothWays(): boolean {
    return this.#exchanges.some(({ earlierReply }) => earlierReply !== null);
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
      rateUncertainty: Math.hypot(seen.rateUncertainty, (seen.toS - continued) / BEND_OVER_S),
    };
    return this.#map;
  }

  /** What the exchanges alone say at a station time. */
  #evidence(stationS: number): LinearMap {
    const there = this.#exchanges.map((one) => ({
      atS: one.sentStationS,
      offsetS: one.receivedReceiverS - one.sentStationS,
    }));
    const back = this.#exchanges.flatMap(({ earlierReply }) =>
      earlierReply === null
        ? []
        : {
            atS: earlierReply.returnedStationS,
            offsetS: earlierReply.returnedStationS - earlierReply.repliedReceiverS,
          },
    );
    const least = edgeOf(there, stationS);
    const most = edgeOf(back, stationS);
    const above = least?.offsetS ?? 0;
    const below = most === null ? above - MOST_LEAST_DELAY_S : -most.offsetS;
    const width = most === null ? MOST_LEAST_DELAY_S : Math.abs(above - below);
    const rates = [least, most].map((edge) => edge?.rateUncertainty ?? UNKNOWN_RATE);
    return {
      fromS: stationS,
      toS: stationS + above - width / 2,
      rate: 1 + ((least?.slope ?? 0) - (most?.slope ?? 0)) / 2,
      uncertaintyS: Math.hypot(
        width / 2 / Math.sqrt(3),
        (least?.usualS ?? 0) / 2,
        (most?.usualS ?? 0) / 2,
      ),
      rateUncertainty: Math.hypot(LEAST_RATE_UNCERTAINTY, ...rates.map((rate) => rate / 2)),
    };
  }
}

/** The lower edge of delays at a time, how it leans, and how far it may be off. */
interface Edge {
  readonly offsetS: number;
  readonly slope: number;
  readonly usualS: number;
  readonly rateUncertainty: number;
}

/** Whether the way of one and the way back of the other leave no offset that drift explains. */
function contradict(one: Exchange, other: Exchange): boolean {
  const crosses = (there: Exchange, back: Exchange): boolean => {
    if (back.earlierReply === null) return false;
    const { repliedReceiverS, returnedStationS } = back.earlierReply;
    const mostS = there.receivedReceiverS - there.sentStationS;
    const leastS = repliedReceiverS - returnedStationS;
    const driftS = MOST_RATE_OFFSET * Math.abs(there.sentStationS - returnedStationS);
    return leastS > mostS + driftS + ROUNDING_S;
  };
  return crosses(one, other) || crosses(other, one);
}

/** Offsets only ever carry delay on top, so the lower edge of many is the offset itself. */
function edgeOf(
  points: readonly { readonly atS: number; readonly offsetS: number }[],
  stationS: number,
): Edge | null {
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) return null;
  const spanS = last.atS - first.atS;
  const leastOffset = Math.min(...points.map(({ offsetS }) => offsetS));
  const flat = {
    offsetS: leastOffset,
    slope: 0,
    usualS: MOST_RATE_OFFSET * spanS,
    rateUncertainty: UNKNOWN_RATE,
  };
  if (spanS < LEAST_BASE_S) return flat;
  const line = lowerEnvelopeLine(
    points.map(({ atS }) => atS),
    points.map(({ offsetS }) => offsetS),
  );
  if (Math.abs(line.slope) > MOST_RATE_OFFSET) return flat;
  const heights = line.heights.slice().sort();
  const usualS = Math.max(0, heights[Math.floor(heights.length / 10)] ?? 0);
  return {
    offsetS: line.y + line.slope * (stationS - line.atX),
    slope: line.slope,
    usualS,
    rateUncertainty: usualS / (spanS / 2),
  };
}
