import { type DraughtMark, type Freeboard, waterLevels } from '#core/flotation/water-level.ts';
import { type Waterline, waterHeightM } from '#core/flotation/waterline.ts';

/** An invented hull for waterlines: 16 m long, the deck edge 2.4 m up amidships with sheer. */
export const LENGTH_M = 16;
const STATIONS = [0.5, 4, 8, 12, 15.5];

const edge = (xM: number) => ({
  halfBreadthM: 2.4 - 0.01 * (xM - 8) ** 2,
  heightM: 2.4 + 0.008 * (xM - 8) ** 2,
});

/** Five freeboards a side of that waterline, plumb and exact but for what `error` adds (m). */
export function freeboardsOf(
  waterline: Waterline,
  error: (k: number) => number = () => 0,
): Freeboard[] {
  const plumb = Math.sqrt(1 + waterline.trimSlope ** 2 + waterline.heelSlope ** 2);
  return (['port', 'starboard'] as const).flatMap((side, s) =>
    STATIONS.map((xM, i): Freeboard => {
      const { halfBreadthM, heightM } = edge(xM);
      const y = side === 'starboard' ? halfBreadthM : -halfBreadthM;
      const down = heightM - waterHeightM(waterline, LENGTH_M, xM, y);
      const freeboardM = down / plumb + error(s * STATIONS.length + i);
      return { point: `${side} ${i + 1}`, side, xM, halfBreadthM, heightM, freeboardM };
    }),
  );
}

/** Six marks of that waterline: aft, amidships and forward, both sides. */
export function marksOf(
  waterline: Waterline,
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
        draughtM: waterHeightM(waterline, LENGTH_M, xM, y) + 0.05 + error(s * 3 + i),
        zeroHeightM: -0.05,
      };
    }),
  );
}

export const levelsOf = (waterline: Waterline, error?: (k: number) => number) =>
  waterLevels(freeboardsOf(waterline, error), []);
