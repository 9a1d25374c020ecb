import { Ads1115 } from './chips/ads1115.ts';
import { Iis2iclx } from './chips/iis2iclx.ts';
import { createInclinometerElement } from './elements/inclinometer.ts';
import { createLevelLegs } from './elements/level-legs.ts';
import { EmulatedBoard } from './emulated-board.ts';
import type { I2cChip } from './i2c.ts';
import { type BoardName, INSTRUMENT_OF_CHIP } from './rig-types.ts';
import type { World } from './world.ts';

export interface OutfitSettings {
  readonly world: World;
  readonly seed: number;
  readonly clockErrorPpm: number;
  readonly eeprom?: Uint8Array | undefined;
  readonly hex: string;
}

/** The boards differ in what they carry and in the noise of their inputs. */
const SEED_STEP: Record<BoardName, number> = { fore: 0, aft: 1 };

/** One of the two boards with its chips, in a world. */
export function outfitBoard(name: BoardName, settings: OutfitSettings): EmulatedBoard {
  const { world, seed, clockErrorPpm, eeprom, hex } = settings;
  return new EmulatedBoard({
    hex,
    seed: 2 * seed + SEED_STEP[name],
    clockErrorPpm,
    eeprom,
    chips: chipsOf(name, world, seed),
  });
}

function chipsOf(name: BoardName, world: World, seed: number): I2cChip[] {
  const carried = INSTRUMENT_OF_CHIP[name];
  const inclinometer = createInclinometerElement({ world, seed, instrument: carried.iis2iclx });
  const chips: I2cChip[] = [new Iis2iclx(0x6a, inclinometer)];
  if ('ads1115' in carried) {
    const legs = createLevelLegs({ world, seed, instrument: carried.ads1115 });
    chips.push(new Ads1115(0x48, legs));
  }
  return chips;
}
