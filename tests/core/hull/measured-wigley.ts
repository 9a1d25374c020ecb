import type { MeasuredPoint } from '#core/hull/measured-section.ts';
import { createRandom } from '#core/numerics/random.ts';
import { evenly } from './hulls.ts';

/** Points taped off a Wigley hull 16 x 3.2 x 1.5 m with a metre of wall, in a shuffled order. */
export function measuredWigley({
  sides,
  offM = 0,
  noiseM = 0,
  seed = 5,
}: {
  sides: 'starboard' | 'port' | 'both';
  offM?: number;
  noiseM?: number;
  seed?: number;
}): MeasuredPoint[] {
  const chance = createRandom(seed, 'points');
  const points: (MeasuredPoint & { order: number })[] = [];
  for (const xM of evenly(0.4, 15.6, 11)) {
    const along = xM / 8 - 1;
    const half = 1.6 * (1 - along * along);
    for (const way of [1, -1]) {
      if (sides === (way === 1 ? 'port' : 'starboard')) continue;
      for (const z of [...evenly(0, 1.5, 9), 2, 2.5]) {
        const down = Math.max(0, 1 - z / 1.5);
        const y = half * (1 - down * down);
        if (y === 0 && way === -1 && sides === 'both') continue;
        points.push({
          xM,
          yM: y === 0 ? 0 : way * y + offM + (noiseM === 0 ? 0 : chance.normal(noiseM)),
          zM: z + (noiseM === 0 ? 0 : chance.normal(noiseM)),
          where: `x ${xM}, z ${z}`,
          order: chance.normal(1),
        });
      }
    }
  }
  return points.sort((a, b) => a.order - b.order).map(({ order: _, ...point }) => point);
}
