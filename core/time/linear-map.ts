/** One clock's time to another's: `to = toS + (from - fromS) * rate`, good near `fromS`. */
export interface LinearMap {
  readonly fromS: number;
  readonly toS: number;
  readonly rate: number;
  /** Standard uncertainty of a time mapped near here, seconds. */
  readonly uncertaintyS: number;
  /** Standard uncertainty of the rate: what a time mapped far from here, or a duration, carries on top. */
  readonly rateUncertainty: number;
}

export function linearMapTime(map: LinearMap, fromS: number): number {
  return map.toS + (fromS - map.fromS) * map.rate;
}

/** Standard uncertainty of the time mapped from `fromS`: it grows with the distance from where the map is good. */
export function linearMapUncertaintyS(map: LinearMap, fromS: number): number {
  return Math.hypot(map.uncertaintyS, (fromS - map.fromS) * map.rateUncertainty);
}

/** The same map told from another time of the first clock, with what is known there. */
export function linearMapFrom(map: LinearMap, fromS: number): LinearMap {
  return {
    ...map,
    fromS,
    toS: linearMapTime(map, fromS),
    uncertaintyS: linearMapUncertaintyS(map, fromS),
  };
}

/** First `inner`, then `outer`; uncertainties are independent and add in square. */
export function linearMapThrough(inner: LinearMap, outer: LinearMap): LinearMap {
  return {
    fromS: inner.fromS,
    toS: linearMapTime(outer, inner.toS),
    rate: inner.rate * outer.rate,
    uncertaintyS: Math.hypot(
      inner.uncertaintyS * outer.rate,
      linearMapUncertaintyS(outer, inner.toS),
    ),
    rateUncertainty: Math.hypot(
      inner.rateUncertainty * outer.rate,
      outer.rateUncertainty * inner.rate,
    ),
  };
}
