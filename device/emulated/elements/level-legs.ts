import { createHashNoise, createRandom, streamFromSeed } from '#core/numerics/random.ts';
import { voltsFromLevelMm } from '#core/part/current-loop-level.ts';
import type { World } from '../world.ts';
import type { VoltageElement } from './element.ts';

/** Level transmitter of the magnetostrictive class (*common practice, no source*): our assumptions. */
const SCALE_TOLERANCE = 0.015;
const ZERO_TOLERANCE_MM = 6;
const NOISE_MM = 0.1;
/** Noise changes over this time: the transmitter's own averaging. */
const NOISE_S = 0.01;
/** Shunt resistor, relative. */
const SHUNT_TOLERANCE = 0.001;

/** Which leg is wired to which input of the converter. */
export const LEG_OF_INPUT = ['port', 'starboard'] as const;

/**
 * Two level transmitters on 4-20 mA loops over shunts, as the converter of the aft board sees
 * them. The noise is a continuous function of time, so that two readers a few microseconds apart
 * get the same volts to a small part of one count.
 */
export function createLevelLegs(of: {
  world: World;
  instrument: string;
  seed: number;
}): VoltageElement {
  const { world, instrument, seed } = of;
  const legs = LEG_OF_INPUT.map((leg) => {
    const chance = createRandom(seed, `${instrument} ${leg} transmitter`);
    return {
      leg,
      scale: 1 + chance.between(-SCALE_TOLERANCE, SCALE_TOLERANCE),
      zeroMm: chance.between(-ZERO_TOLERANCE_MM, ZERO_TOLERANCE_MM),
      shunt: 1 + chance.between(-SHUNT_TOLERANCE, SHUNT_TOLERANCE),
      noise: createHashNoise(streamFromSeed(seed, `${instrument} ${leg} noise`)),
    };
  });
  return {
    volts(input, timeS) {
      const wired = legs[input];
      if (wired === undefined) throw new RangeError(`nothing is wired to input ${input}`);
      const levelMm = world.legLevelMm(instrument, wired.leg, timeS);
      const toldMm = wired.scale * levelMm + wired.zeroMm + NOISE_MM * wired.noise(timeS / NOISE_S);
      return voltsFromLevelMm(toldMm) * wired.shunt;
    },
  };
}
