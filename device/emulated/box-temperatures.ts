import { createHashNoise, hashUniform, streamFromSeed } from '#core/numerics/random.ts';
import type { World } from './world.ts';

const BERTH_C = 11.5;
const WARMING_S = 600;
/** Share of the box's own warmth that comes after the start; it has been powered for a while. */
const STILL_TO_COME = 0.35;
const DAY_K = 0.9;

/** Each box warms by its own electronics, and the day warms and cools them all a little. */
export function createBoxTemperatures(seed: number): World['temperatureC'] {
  const boxes = new Map<string, { ownK: number; dayNoise: (place: number) => number }>();
  return (instrument, timeS) => {
    let box = boxes.get(instrument);
    if (box === undefined) {
      const stream = streamFromSeed(seed, `${instrument} temperature`);
      box = { ownK: 2 + hashUniform(stream, 0), dayNoise: createHashNoise(stream) };
      boxes.set(instrument, box);
    }
    const warmedK = box.ownK * (1 - STILL_TO_COME * Math.exp(-timeS / WARMING_S));
    return BERTH_C + warmedK + DAY_K * box.dayNoise(1 + timeS / 3600);
  };
}
