import type { Contribution } from '../quantity/uncertainty.ts';
import { cutBodies } from './cut.ts';
import { type Hull, immersedOf, waterplaneOf } from './hull.ts';
import type { MeasuredHull } from './measured-points.ts';
import type { OffsetStation } from './offsets.ts';
import { draughtAtM, type Waterline } from './waterline.ts';

/** What errors of measured points do to displacement and KM at one waterline. */
export interface HullUncertainty {
  readonly displacementT: Contribution;
  readonly kmM: Contribution;
}

/**
 * Errors of single points, independent of each other, carried into displacement and KM: each point
 * moves the girth around it out or in, each station stands for the length around it, a mirrored side
 * counts twice, the mean of two sides as two. `pointM` is the standard uncertainty of a point, from
 * the fairness or larger. What a tape or a wrong baseline does to all points together is not in
 * here: spot checks tell that (`spot-check.ts`). Our own derivation.
 */
export function measuredHullUncertainty(
  hull: Hull,
  measured: MeasuredHull,
  upright: Waterline,
  densityTM3: number,
  pointM: number = measured.fairness.pointUncertaintyM,
): HullUncertainty {
  const cut = cutBodies(hull.bodies, upright);
  const { volumeM3 } = immersedOf(cut);
  const bmM = waterplaneOf(cut, upright).transverseM4 / volumeM3;
  let [volume2, second2] = [0, 0];
  measured.stations.forEach((station, i) => {
    const section = measured.sections[i]!;
    const sides = section.centreOffM === null ? 1 : 2;
    const lengthM = standsFor(measured.stations, i);
    const { girthM, points, halfBreadthM } = below(station, draughtAtM(upright, station.xM));
    // Both halves of the area move by the error of the one outline that serves for both.
    const areaM2 = (2 * pointM * girthM) / Math.sqrt(sides * Math.max(1, points));
    volume2 += (lengthM * areaM2) ** 2;
    // I = 2/3 integral b3 dx; at the water b lies between two points.
    const breadthM = pointM / Math.sqrt(2 * sides);
    second2 += (2 * lengthM * halfBreadthM ** 2 * breadthM) ** 2;
  });
  const volumeShare = Math.sqrt(volume2) / volumeM3;
  const cause = 'points measured off the hull';
  const degreesOfFreedom = Math.max(1, measured.fairness.points.length - 1);
  return {
    displacementT: {
      cause,
      standardUncertainty: volumeShare * volumeM3 * densityTM3,
      degreesOfFreedom,
    },
    kmM: {
      cause,
      standardUncertainty: Math.hypot(Math.sqrt(second2) / volumeM3, bmM * volumeShare),
      degreesOfFreedom,
    },
  };
}

function standsFor(stations: readonly OffsetStation[], i: number): number {
  const x = (k: number) => stations[Math.min(stations.length - 1, Math.max(0, k))]!.xM;
  return (x(i + 1) - x(i - 1)) / 2;
}

function below(
  { points }: OffsetStation,
  draughtM: number,
): { girthM: number; points: number; halfBreadthM: number } {
  let [girthM, count, halfBreadthM] = [0, 0, 0];
  points.forEach((point, k) => {
    if (point.zM > draughtM) return;
    count++;
    halfBreadthM = Math.max(halfBreadthM, point.yM);
    const next = points[k + 1];
    if (next !== undefined) girthM += Math.hypot(next.yM - point.yM, next.zM - point.zM);
  });
  return { girthM, points: count, halfBreadthM };
}
