import { type DraughtMark, type Freeboard, waterLevels } from '#core/flotation/water-level.ts';
import { type WaterSurface, waterHeightM } from '#core/flotation/water-surface.ts';

/** An invented hull for waterlines: 16 m long, the deck edge 2.4 m up amidships with sheer. */
export const LENGTH_M = 16;
const STATIONS = [0.5, 4, 8, 12, 15.5];

const edge = (xM: number) => ({
  halfBreadthM: 2.4 - 0.01 * (xM - 8) ** 2,
  heightM: 2.4 + 0.008 * (xM - 8) ** 2,
});

/** Five freeboards a side of that surface, plumb and exact but for what `error` adds (m). */
export function freeboardsOf(
  surface: WaterSurface,
  error: (k: number) => number = () => 0,
): Freeboard[] {
  const plumb = Math.sqrt(1 + surface.trimSlope ** 2 + surface.heelSlope ** 2);
  return (['port', 'starboard'] as const).flatMap((side, s) =>
    STATIONS.map((xM, i): Freeboard => {
      const { halfBreadthM, heightM } = edge(xM);
      const y = side === 'starboard' ? halfBreadthM : -halfBreadthM;
      const down = heightM - waterHeightM(surface, LENGTH_M, xM, y);
      const freeboardM = down / plumb + error(s * STATIONS.length + i);
      return { point: `${side} ${i + 1}`, side, xM, halfBreadthM, heightM, freeboardM };
    }),
  );
}

/** Six marks of that surface: aft, amidships and forward, both sides. */
export function marksOf(
  surface: WaterSurface,
  error: (k: number) => number = () => 0,
): DraughtMark[] {
  return (['port', 'starboard'] as const).flatMap((side, s) =>
    [1, 8, 15].map((xM, i): DraughtMark => {
      const halfBreadthM = edge(xM).halfBreadthM - 0.1;
      const y = side === 'starboard' ? halfBreadthM : -halfBreadthM;
      return {
        point: `mark ${side} ${i + 1}`,
        side,
        xM,
        halfBreadthM,
        draughtM: waterHeightM(surface, LENGTH_M, xM, y) + 0.05 + error(s * 3 + i),
        zeroHeightM: -0.05,
      };
    }),
  );
}

export const levelsOf = (surface: WaterSurface, error?: (k: number) => number) =>
  waterLevels(freeboardsOf(surface, error), []);
