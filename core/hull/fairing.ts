/**
 * How a line of the hull runs fore and aft through the stations: a cubic between neighbours, with
 * at each station the direction of the parabola through three neighbours. A straight run stays
 * straight up to its last station, and where two straight runs meet, or a straight run and a
 * single last interval, the line keeps its knuckle. Nothing has to be declared; a knuckle can be
 * forced by giving a station twice.
 */

/** A bend below this share of its neighbour's is a straight run by comparison. */
const STRAIGHT_SHARE = 0.1;

export interface Directions {
  /** [dy/dx, dz/dx] coming to each station from aft and leaving it forward. */
  readonly coming: readonly (readonly [number, number])[];
  readonly leaving: readonly (readonly [number, number])[];
}

type Pair = readonly [number, number];

/** Directions of one line through at least two stations with ascending x. */
export function directionsThrough(xM: readonly number[], points: readonly Pair[]): Directions {
  const last = xM.length - 1;
  const step = (j: number) => xM[j + 1]! - xM[j]!;
  const slopes = points.slice(0, last).map(([y, z], j): Pair => {
    const [yNext, zNext] = points[j + 1]!;
    return [(yNext - y) / step(j), (zNext - z) / step(j)];
  });
  const bends = points.map((_, i): Pair | null => {
    if (i === 0 || i === last) return null;
    const span = (step(i - 1) + step(i)) / 2;
    const [before, after] = [slopes[i - 1]!, slopes[i]!];
    return [(after[0] - before[0]) / span, (after[1] - before[1]) / span];
  });
  const coming: Pair[] = [];
  const leaving: Pair[] = [];
  for (let i = 0; i <= last; i++) {
    if (i === 0 || i === last) {
      coming.push(slopes[Math.max(0, i - 1)]!);
      leaving.push(slopes[Math.min(last - 1, i)]!);
      continue;
    }
    const [before, after] = [slopes[i - 1]!, slopes[i]!];
    const left = isStraight(bends, i, -1);
    const right = isStraight(bends, i, 1);
    const knuckle = left ? right || i + 1 === last : right && i - 1 === 0;
    const parabola = mixed(before, step(i), after, step(i - 1));
    coming.push(knuckle || left ? before : right ? after : parabola);
    leaving.push(knuckle || right ? after : left ? before : parabola);
  }
  if (last > 1) {
    leaving[0] = endDirection(slopes[0]!, coming[1]!, points[0]![0]);
    coming[last] = endDirection(slopes[last - 1]!, leaving[last - 1]!, points[last]![0]);
  }
  return { coming, leaving };
}

function isStraight(bends: readonly (Pair | null)[], i: number, way: 1 | -1): boolean {
  const [here, beside, beyond] = [bends[i]!, bends[i + way], bends[i + 2 * way]];
  if (beside === null || beside === undefined) return false;
  const least = STRAIGHT_SHARE * Math.hypot(...here);
  if (Math.hypot(...beside) > least) return false;
  // Where the line bends the other way beyond, it swings through here and is not straight.
  if (beyond === null || beyond === undefined) return true;
  const turnsBack = beyond[0] * here[0] + beyond[1] * here[1] < 0;
  return !(turnsBack && Math.hypot(...beyond) > least);
}

function mixed(a: Pair, weightA: number, b: Pair, weightB: number): Pair {
  const sum = weightA + weightB;
  return [(a[0] * weightA + b[0] * weightB) / sum, (a[1] * weightA + b[1] * weightB) / sum];
}

/** The end of a parabola; a half-breadth that closes at the end does not close before it. */
function endDirection(slope: Pair, inner: Pair, halfBreadthM: number): Pair {
  const across = 2 * slope[0] - inner[0];
  const closes = halfBreadthM === 0 && across * slope[0] < 0;
  return [closes ? 0 : across, 2 * slope[1] - inner[1]];
}
