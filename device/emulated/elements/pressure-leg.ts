import { createHashNoise, createRandom, streamFromSeed } from '#core/numerics/random.ts';
import {
  countsFromPressurePa,
  countsFromTemperatureC,
  type PressureRangePa,
} from '#core/part/abp2.ts';
import { voltsFromPressurePa } from '#core/part/mpx5010.ts';
import { pressurePaOfHeight } from '#core/part/water-column.ts';
import type { World } from '../world.ts';
import type { PressureElement, VoltageElement } from './element.ts';

/** Where a pressure sensor stands: which leg of which tube. */
export interface PressureLeg {
  readonly world: World;
  readonly instrument: string;
  readonly leg: 'port' | 'starboard';
  readonly seed: number;
}

/** Noise changes over this time; our assumption. */
const NOISE_S = 0.005;
/** ABP2: total error band 1.5 % of the range (sheet, second hand); noise our assumption. */
const ABP2_SCALE = 0.01;
const ABP2_ZERO_SHARE = 0.005;
const ABP2_NOISE_PA = 0.7;
/** MPX5010: 5 % of span over its temperatures (sheet), of which 3 % here; its noise our assumption. */
const MPX_SCALE = 0.03;
const MPX_ZERO_PA = 200;
const MPX_NOISE_PA = 1;
/** A supply by the port's own 5 V wanders by some hundredths; our assumption. */
const SUPPLY_V = 5;
const SUPPLY_TOLERANCE_V = 0.1;
const SUPPLY_WANDER_V = 0.02;
const SUPPLY_WANDER_S = 20;

/** Pressure at the foot of a leg: the column along it, as steep as the vessel leaves it. */
function footPressurePa({ world, instrument, leg }: PressureLeg, timeS: number): number {
  const { xG, yG, zG } = world.specificForceG(instrument, timeS);
  const upright = zG / Math.hypot(xG, yG, zG);
  return pressurePaOfHeight(world.legLevelMm(instrument, leg, timeS) * upright);
}

function sensorOf(of: PressureLeg, tolerance: { scale: number; zeroPa: number; noisePa: number }) {
  const name = `${of.instrument} ${of.leg} pressure`;
  const chance = createRandom(of.seed, name);
  const scale = 1 + chance.between(-tolerance.scale, tolerance.scale);
  const zeroPa = chance.between(-tolerance.zeroPa, tolerance.zeroPa);
  const noise = createHashNoise(streamFromSeed(of.seed, `${name} noise`));
  return {
    chance,
    toldPa: (timeS: number) =>
      scale * footPressurePa(of, timeS) + zeroPa + tolerance.noisePa * noise(timeS / NOISE_S),
  };
}

/** What an ABP2 of a range tells at the foot of a leg. */
export function createPressureElement(of: PressureLeg, rangePa: PressureRangePa): PressureElement {
  const [least, most] = rangePa;
  const zeroPa = ABP2_ZERO_SHARE * (most - least);
  const { toldPa } = sensorOf(of, { scale: ABP2_SCALE, zeroPa, noisePa: ABP2_NOISE_PA });
  return {
    read: (timeS) => ({
      pressureCounts: Math.round(countsFromPressurePa(toldPa(timeS), rangePa)),
      temperatureCounts: Math.round(
        countsFromTemperatureC(of.world.temperatureC(of.instrument, timeS)),
      ),
    }),
  };
}

/** Input 0: output of an MPX5010 at the foot of a leg; input 1: its supply, which wanders. */
export function createRatiometricLeg(of: PressureLeg): VoltageElement {
  const { chance, toldPa } = sensorOf(of, {
    scale: MPX_SCALE,
    zeroPa: MPX_ZERO_PA,
    noisePa: MPX_NOISE_PA,
  });
  const meanV = SUPPLY_V + chance.between(-SUPPLY_TOLERANCE_V, SUPPLY_TOLERANCE_V);
  const wander = createHashNoise(streamFromSeed(of.seed, `${of.instrument} ${of.leg} supply`));
  return {
    volts(input, timeS) {
      const supplyV = meanV + SUPPLY_WANDER_V * wander(timeS / SUPPLY_WANDER_S);
      return input === 0 ? voltsFromPressurePa(toldPa(timeS), supplyV) : supplyV;
    },
  };
}
