/** One clock's time to another's: `to = toS + (from - fromS) * rate`, good near `fromS`. */
export interface LinearMap {
  readonly fromS: number;
  readonly toS: number;
  readonly rate: number;
  /** Standard uncertainty of a time mapped near here, seconds. */
  readonly uncertaintyS: number;
}

export function linearMapTime(map: LinearMap, fromS: number): number {
  return map.toS + (fromS - map.fromS) * map.rate;
}

/** First `inner`, then `outer`; uncertainties are independent and add in square. */
export function linearMapThrough(inner: LinearMap, outer: LinearMap): LinearMap {
  return {
    fromS: inner.fromS,
    toS: linearMapTime(outer, inner.toS),
    rate: inner.rate * outer.rate,
    uncertaintyS: Math.hypot(inner.uncertaintyS * outer.rate, outer.uncertaintyS),
  };
}
