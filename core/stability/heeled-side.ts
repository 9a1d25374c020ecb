import type { Hull } from '../hull/hull.ts';
import { deckEdges } from '../hull/righting-lever.ts';
import { heightOverWaterM, type ShipPoint, type Waterline } from '../hull/waterline.ts';
import { bracketedRoot } from '../numerics/root.ts';
import { leversThrough } from './sampled-levers.ts';
import type { SideSamples } from './side-samples.ts';

/** What comes under water on one side as she heels to it; heels counted positive to that side. */
export interface HeeledSide {
  /** Her waterline at a heel, from 0 to 90 degrees, drawn through the samples. */
  waterlineAt(heelRad: number): Waterline;
  /** Least height of that side's deck edge over the water, m; negative when it is under. */
  freeboardM(heelRad: number): number;
  /** Least heel at which a point is under; null where it does not come under within 90 degrees. */
  immersedRad(point: ShipPoint): number | null;
  deckEdgeRad(): number | null;
}

export function heeledSide(hull: Hull, samples: SideSamples): HeeledSide {
  const { way, heelsRad, at } = samples;
  const through = (values: readonly number[], what: string) =>
    leversThrough(heelsRad, values, what).leverM;
  const trim = through(
    at.map(({ waterline }) => waterline.trimRad),
    'trim',
  );
  const level = through(
    at.map(({ waterline }) => waterline.levelM),
    'level',
  );
  const waterlineAt = (heelRad: number): Waterline => ({
    heelRad: way * heelRad,
    trimRad: trim(heelRad),
    levelM: level(heelRad),
  });
  const deck = deckEdges(hull, way);
  const freeboardM = (heelRad: number): number => {
    const waterline = waterlineAt(heelRad);
    return Math.min(...deck.map((point) => heightOverWaterM(waterline, point)));
  };
  const firstUnder = (heightM: (heelRad: number) => number): number | null => {
    if (heightM(0) <= 0) return 0;
    for (let k = 1; k < heelsRad.length; k++) {
      const [from, to] = [heelsRad[k - 1]!, heelsRad[k]!];
      if (heightM(to) <= 0) return bracketedRoot(heightM, from, to);
    }
    return null;
  };
  return {
    waterlineAt,
    freeboardM,
    immersedRad: (point) => firstUnder((heelRad) => heightOverWaterM(waterlineAt(heelRad), point)),
    deckEdgeRad: () => firstUnder(freeboardM),
  };
}
