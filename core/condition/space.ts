import { z } from 'zod';
import { Fault } from '../fault/fault.ts';
import type { LiquidAboard } from '../reduction/liquids.ts';
import {
  type LiquidBody,
  type TankShape,
  volumeOfSounding,
  wholeTank,
} from '../survey/tank-liquid.ts';
import { tankShapeFrom, tankShapeInput } from '../survey/tank-shape-input.ts';

const name = z.string().trim().min(1).max(64);
const metres = z.number().min(-450).max(450);

/** What a space is for. Those that are used up on a trip are emptied by the standard conditions. */
const SPACE_USES = [
  'fuel',
  'fresh-water',
  'lubricating-oil',
  'fish-hold',
  'live-well',
  'ballast',
  'waste',
  'other',
] as const;
export type SpaceUse = (typeof SPACE_USES)[number];

export const spaceInput = z.strictObject({
  space: name,
  use: z.enum(SPACE_USES),
  shape: tankShapeInput,
  densityTM3: z.number().positive().max(3).describe('of what it holds, tonnes a cubic metre'),
  strikingPlace: z
    .strictObject({ xM: metres, yM: metres, zM: metres })
    .optional()
    .describe('where a sounding is struck; needed for soundings only'),
});

/** What is in a space: one of the three. A sounding is taken upright and on an even keel. */
export const fillingInput = z.strictObject({
  space: name,
  share: z.number().min(0).max(1).optional().describe('of the capacity'),
  volumeM3: z.number().nonnegative().optional(),
  soundingM: z.number().nonnegative().max(50).optional(),
  densityTM3: z.number().positive().max(3).optional().describe("where not the space's own"),
});
export type FillingInput = z.infer<typeof fillingInput>;

/** A tank or hold with its inside. */
export interface Space {
  readonly space: string;
  readonly use: SpaceUse;
  readonly shape: TankShape;
  readonly densityTM3: number;
  /** Volume and centroid when full. */
  readonly whole: LiquidBody;
  readonly strikingPlace: { readonly xM: number; readonly yM: number; readonly zM: number } | null;
}

/** Spaces by their names. Throws `input-contradiction` for a name given twice, and what shapes throw. */
export function spacesFrom(
  inputs: readonly z.infer<typeof spaceInput>[],
): ReadonlyMap<string, Space> {
  const spaces = new Map<string, Space>();
  for (const { space, use, shape: form, densityTM3, strikingPlace } of inputs) {
    if (spaces.has(space)) {
      throw new Fault('input-contradiction', 'spaces', `${space} stands twice`);
    }
    const shape = tankShapeFrom(form);
    const whole = wholeTank(shape);
    if (!(whole.volumeM3 > 0)) throw new Fault('input-range', `space ${space}`, 'it holds nothing');
    spaces.set(space, {
      space,
      use,
      shape,
      densityTM3,
      whole,
      strikingPlace: strikingPlace ?? null,
    });
  }
  return spaces;
}

/**
 * What a filling puts aboard. Throws `loading-unknown` for a space that is not there,
 * `input-contradiction` where not one of share, volume and sounding is given, `input-range` for more
 * than the space holds.
 */
export function liquidFrom(
  spaces: ReadonlyMap<string, Space>,
  filling: FillingInput,
  where: string,
): LiquidAboard {
  const space = spaces.get(filling.space);
  if (space === undefined) {
    throw new Fault('loading-unknown', where, `space ${filling.space}`);
  }
  const volumeM3 = volumeOf(space, filling, `${where}: ${filling.space}`);
  if (volumeM3 > space.whole.volumeM3 * (1 + 1e-9)) {
    throw new Fault(
      'input-range',
      `${where}: ${filling.space}`,
      `${volumeM3} m3, it holds ${space.whole.volumeM3}`,
    );
  }
  return {
    tank: space.space,
    shape: space.shape,
    volumeM3,
    densityTM3: filling.densityTM3 ?? space.densityTM3,
  };
}

function volumeOf(space: Space, filling: FillingInput, where: string): number {
  const { share, volumeM3, soundingM } = filling;
  const given = [share, volumeM3, soundingM].filter((one) => one !== undefined);
  if (given.length !== 1) {
    throw new Fault('input-contradiction', where, 'give one of share, volumeM3 and soundingM');
  }
  if (share !== undefined) return share * space.whole.volumeM3;
  if (volumeM3 !== undefined) return volumeM3;
  if (space.strikingPlace === null) {
    throw new Fault('input-contradiction', where, 'a sounding, and no place where it is struck');
  }
  const level = { heelSlope: 0, trimSlope: 0 };
  return volumeOfSounding(space.shape, space.strikingPlace, soundingM!, level);
}
