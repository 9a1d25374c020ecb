import {
  type MeasuredPoint,
  type MeasuredSection,
  type PolarPoint,
  radiusAt,
} from './measured-section.ts';

/** How a measured point lies to its neighbours, along the ship and across to the other side. */
export interface PointFairness {
  readonly point: MeasuredPoint;
  /** Out of the fair run through the sections beside it, outward positive; null at the ends. */
  readonly alongM: number | null;
  /** Outside the other half's outline; null from one side. */
  readonly acrossM: number | null;
}

export interface Fairness {
  readonly points: readonly PointFairness[];
  /** Robust spread of the residuals: the standard uncertainty of one measured point, m. */
  readonly pointUncertaintyM: number;
  /** Points out of the run by over five times the spread and 10 mm (our setting), worst first. */
  readonly outliers: readonly PointFairness[];
}

const OUT_SPREADS = 5;
const LEAST_OUT_M = 0.01;
/** Points this near in height to a much worse one are taken to lie in its shadow. */
const NEAR_M = 0.5;
const SHADOW = 1.4;
/** A residual against two neighbours and the other side holds a share of their errors too. */
const RESIDUAL_SHARE = 1.2;
/** A normal spread from a median of absolute values. */
const FROM_MEDIAN = 1.4826;

/**
 * Fairness of measured sections. Along the ship: a point's radius against the mean of the sections
 * beside it, less what its two neighbours in the section show too, so that the hull's own bend drops
 * out. Across: against the other half.
 */
export function fairnessOf(sections: readonly MeasuredSection[]): Fairness {
  const points = sections.flatMap((section, i) => {
    const sides = [section.starboard, section.port] as const;
    return sides.flatMap((side, k) => {
      const along = alongResiduals(side, section.xM, sections[i - 1], sections[i + 1]);
      return side.map((one, j): PointFairness => {
        const other = radiusAt(sides[1 - k]!, one.angleRad);
        return {
          point: one.point,
          alongM: along[j]!,
          acrossM: other === null || one.point.yM === 0 ? null : one.radiusM - other,
        };
      });
    });
  });
  const sizes = points.flatMap(({ alongM, acrossM }) => {
    const one = alongM ?? acrossM;
    return one === null ? [] : [Math.abs(one)];
  });
  const spreadM = FROM_MEDIAN * median(sizes);
  const limitM = Math.max(LEAST_OUT_M, OUT_SPREADS * spreadM);
  const outliers: PointFairness[] = [];
  const suspects = points
    .filter(({ alongM, acrossM }) => {
      const out = (one: number | null) => one === null || Math.abs(one) > limitM;
      return (alongM !== null || acrossM !== null) && out(alongM) && out(acrossM);
    })
    .sort((a, b) => worst(b) - worst(a));
  for (const one of suspects) {
    if (
      !outliers.some((other) => worst(other) > SHADOW * worst(one) && areNear(sections, one, other))
    ) {
      outliers.push(one);
    }
  }
  return { points, pointUncertaintyM: spreadM / RESIDUAL_SHARE, outliers };
}

/** A wrong point throws half its error on its neighbours: in its section and in the next ones. */
function areNear(
  sections: readonly MeasuredSection[],
  { point: a }: PointFairness,
  { point: b }: PointFairness,
): boolean {
  const place = (xM: number) =>
    sections.findIndex(
      (one, i) => xM <= (one.xM + (sections[i + 1]?.xM ?? Number.POSITIVE_INFINITY)) / 2,
    );
  return Math.abs(place(a.xM) - place(b.xM)) <= 1 && Math.abs(a.zM - b.zM) < NEAR_M;
}

function worst({ alongM, acrossM }: PointFairness): number {
  return Math.max(Math.abs(alongM ?? 0), Math.abs(acrossM ?? 0));
}

function alongResiduals(
  side: readonly PolarPoint[],
  xM: number,
  aft: MeasuredSection | undefined,
  forward: MeasuredSection | undefined,
): (number | null)[] {
  if (aft === undefined || forward === undefined) return side.map(() => null);
  const share = (xM - aft.xM) / (forward.xM - aft.xM);
  const off = side.map(({ angleRad, radiusM }) => {
    const [a, b] = [meanRadius(aft, angleRad), meanRadius(forward, angleRad)];
    return a === null || b === null ? null : radiusM - (a + share * (b - a));
  });
  return off.map((one, j) => {
    const [before, after] = [off[j - 1], off[j + 1]];
    if (one === null || before == null || after == null) return null;
    const [a, b] = [side[j - 1]!.angleRad, side[j + 1]!.angleRad];
    const along = b === a ? 0.5 : (side[j]!.angleRad - a) / (b - a);
    return one - (before + along * (after - before));
  });
}

function meanRadius({ starboard, port }: MeasuredSection, angleRad: number): number | null {
  const [s, p] = [radiusAt(starboard, angleRad), radiusAt(port, angleRad)];
  if (s === null || p === null) return s ?? p;
  return (s + p) / 2;
}

function median(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
