import { createHashNoise, streamFromSeed } from '#core/numerics/random.ts';

/**
 * Noise whose power falls as 1/frequency over nine octaves, from seconds to quarter-hours: the sum
 * of one slowly changing noise an octave, all of one strength. Standard deviation 1.
 */
const SHORTEST_S = 2;
const OCTAVES = 9;

export function createFlicker(seed: number, name: string): (timeS: number) => number {
  const octaves = Array.from({ length: OCTAVES }, (_, octave) => ({
    noise: createHashNoise(streamFromSeed(seed, `${name} octave ${octave}`)),
    lastsS: SHORTEST_S * 2 ** octave,
  }));
  const share = 1 / Math.sqrt(OCTAVES);
  return (timeS) => {
    let sum = 0;
    for (const { noise, lastsS } of octaves) sum += noise(timeS / lastsS);
    return share * sum;
  };
}
