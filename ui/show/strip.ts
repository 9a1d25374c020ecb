import { TRACE_S, type Trace } from '../link/traces.ts';

/** A stretch that was not used. Null instruments: all of them, so it was the vessel. */
export interface NotUsed {
  readonly fromS: number;
  readonly toS: number;
  readonly kind: string;
  readonly instruments: readonly string[] | null;
}

/** Waiting for the vessel to come to rest is no fault of the data: it is not hatched, only not counted. */
const SETTLING = 'settling';

export function bandsOf(instrument: string, notUsed: readonly NotUsed[]): NotUsed[] {
  return notUsed.filter(
    (stretch) =>
      stretch.kind !== SETTLING &&
      (stretch.instruments === null || stretch.instruments.includes(instrument)),
  );
}

/** The same columns twice: what may be used, and what may not, each null where the other stands. */
export function splitTrace(
  trace: Trace,
  bands: readonly NotUsed[],
): { used: (number | null)[]; rejected: (number | null)[] } {
  const used: (number | null)[] = [];
  const rejected: (number | null)[] = [];
  trace.atS.forEach((atS, k) => {
    const heelDeg = trace.heelDeg[k] ?? null;
    const out = bands.some((band) => atS >= band.fromS && atS <= band.toS);
    used.push(out ? null : heelDeg);
    rejected.push(out ? heelDeg : null);
  });
  return { used, rejected };
}

/** Heel from and to for all lanes: one scale, a round width, the mean in the middle. */
export function laneRange(
  traces: readonly Trace[],
  meanDeg: number | null,
): { loDeg: number; hiDeg: number } {
  let lo = Number.POSITIVE_INFINITY;
  let hi = Number.NEGATIVE_INFINITY;
  for (const trace of traces) {
    for (const heelDeg of trace.heelDeg) {
      if (heelDeg === null) continue;
      if (heelDeg < lo) lo = heelDeg;
      if (heelDeg > hi) hi = heelDeg;
    }
  }
  if (lo > hi) return { loDeg: (meanDeg ?? 0) - 0.5, hiDeg: (meanDeg ?? 0) + 0.5 };
  const middle = Math.round(((lo + hi) / 2) * 10) / 10;
  const reach = Math.max(hi - middle, middle - lo, 0.05);
  const half = [0.1, 0.2, 0.4, 0.6, 1, 1.5, 2, 3, 5, 8, 15, 30, 60].find((step) => step >= reach);
  const halfDeg = half ?? 90;
  return { loDeg: middle - halfDeg, hiDeg: middle + halfDeg };
}

/** The stretches that make up the counted seconds: back from now, leaving out what was the vessel's. */
export function countedStretches(
  nowS: number,
  countedS: number,
  notUsed: readonly NotUsed[],
): { fromS: number; toS: number }[] {
  const stretches: { fromS: number; toS: number }[] = [];
  const whole = notUsed
    .filter((stretch) => stretch.instruments === null)
    .sort((a, b) => b.toS - a.toS);
  let left = countedS;
  let toS = nowS;
  for (const stretch of [...whole, { fromS: nowS - TRACE_S, toS: nowS - TRACE_S }]) {
    if (left <= 0) break;
    const fromS = Math.max(Math.min(stretch.toS, toS), toS - left);
    if (toS > fromS) {
      stretches.push({ fromS, toS });
      left -= toS - fromS;
    }
    toS = Math.min(toS, stretch.fromS);
  }
  return stretches;
}

/** Stretches without a sample longer than a second: an empty lane between two rules. */
export function silences(trace: Trace, nowS: number): { fromS: number; toS: number }[] {
  const gaps: { fromS: number; toS: number }[] = [];
  let lastS: number | null = null;
  trace.atS.forEach((atS, k) => {
    if (trace.heelDeg[k] === null) return;
    if (lastS !== null && atS - lastS > 1) gaps.push({ fromS: lastS, toS: atS });
    lastS = atS;
  });
  if (lastS !== null && nowS - lastS > 2) gaps.push({ fromS: lastS, toS: nowS });
  return gaps;
}
