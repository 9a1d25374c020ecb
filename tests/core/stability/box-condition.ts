import { loadedCondition } from '#core/condition/condition.ts';
import type { ItemInput } from '#core/condition/item.ts';
import { lightshipInput } from '#core/condition/lightship-input.ts';
import { type FillingInput, spacesFrom } from '#core/condition/space.ts';
import type { Hull } from '#core/hull/hull.ts';
import type { EvidenceQuestion } from '#core/stability/condition-evidence.ts';
import type { VesselParticulars } from '#core/stability/evidence.ts';
import { prism } from '#tests/core/hull/hulls.ts';

/** Twenty metres by six, three deep: `published` box of closed-form levers, wall-sided. */
export const BOX_HULL = prism(20, 5, [
  [0, 0],
  [3, 0],
  [3, 3],
]);

export const NO_PARTICULARS: VesselParticulars = {
  name: 'a test',
  lengthsM: {},
  services: null,
  waters: null,
  builtOn: null,
  hulls: 'mono',
  decked: true,
  beamM: 6,
  depthM: 3,
  superstructureLengthM: 0,
  superstructureHeightM: null,
  sheerAtLeastStandard: null,
  keelAreaM2: 0,
  bilge: 'round',
  assignedFreeboardM: null,
};

export interface BoxLoad {
  readonly massT?: number;
  readonly kgM?: number;
  readonly tcgM?: number;
  readonly massUncertaintyT?: number;
  readonly kgUncertaintyM?: number;
  readonly fillings?: readonly FillingInput[];
  readonly items?: readonly ItemInput[];
}

/** A tank amidships, 4 m x 3 m x 1 m, off the centre by nothing. */
export const TANK = {
  space: 'tank',
  use: 'fuel' as const,
  densityTM3: 1,
  shape: {
    kind: 'rectangular' as const,
    fromXM: 8,
    toXM: 12,
    fromYM: -1.5,
    toYM: 1.5,
    fromZM: 0.2,
    toZM: 1.2,
  },
};

/** The box of 184.5 t at KG 2.2 in water of 1.025, and what is asked otherwise. */
export function boxQuestion(load: BoxLoad = {}, hull: Hull = BOX_HULL): EvidenceQuestion {
  const lightship = lightshipInput.parse({
    mass: { value: load.massT ?? 184.5, standardUncertainty: load.massUncertaintyT ?? 0 },
    lcg: { value: 10 },
    tcg: { value: load.tcgM ?? 0 },
    vcg: { value: load.kgM ?? 2.2, standardUncertainty: load.kgUncertaintyM ?? 0 },
  });
  return {
    loaded: loadedCondition({
      name: 'box',
      lightship,
      spaces: spacesFrom([TANK]),
      fillings: load.fillings ?? [],
      items: load.items ?? [],
    }),
    kind: 'working',
    vessel: NO_PARTICULARS,
    hull,
    densityTM3: 1.025,
    openings: [],
    windage: null,
    heelingMoments: [],
  };
}
