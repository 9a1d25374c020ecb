import { Fault } from '../fault/fault.ts';
import { type Corner, polygonBelow } from '../numerics/clipped-polygon.ts';
import { bracketedRoot } from '../numerics/root.ts';
import { checkFinite, checkPositive, checkRange } from '../quantity/check.ts';

/** A cross section of a tank at a place of the ship's length. */
export interface TankSection {
  readonly xM: number;
  /** Corners around, in ship axes: y to starboard, z up. */
  readonly outline: readonly { readonly yM: number; readonly zM: number }[];
}

/** A tank by its geometry: the sections in order of x, straight lines of area between them. */
export interface TankShape {
  readonly sections: readonly TankSection[];
}

/** A rectangular tank in ship axes, as a shape. */
export function rectangularTank(tank: {
  readonly fromXM: number;
  readonly toXM: number;
  readonly fromYM: number;
  readonly toYM: number;
  readonly fromZM: number;
  readonly toZM: number;
}): TankShape {
  for (const [from, to, what] of [
    [tank.fromXM, tank.toXM, 'x'],
    [tank.fromYM, tank.toYM, 'y'],
    [tank.fromZM, tank.toZM, 'z'],
  ] as const) {
    checkPositive(to - from, `tank, ${what} from and to, m`);
  }
  const outline = [
    { yM: tank.fromYM, zM: tank.fromZM },
    { yM: tank.toYM, zM: tank.fromZM },
    { yM: tank.toYM, zM: tank.toZM },
    { yM: tank.fromYM, zM: tank.toZM },
  ];
  return {
    sections: [
      { xM: tank.fromXM, outline },
      { xM: tank.toXM, outline },
    ],
  };
}

export interface LiquidBody {
  readonly volumeM3: number;
  readonly xM: number;
  readonly yM: number;
  readonly zM: number;
}

/** Slope of still liquid in ship axes: z = level + tan(heel) y - trimSlope x. */
export interface LiquidSlope {
  readonly heelSlope: number;
  readonly trimSlope: number;
}

const MOST_SECTIONS = 60;
const MOST_CORNERS = 200;

export function checkTankShape({ sections }: TankShape): void {
  if (sections.length < 2) throw new Fault('input-too-few', 'tank sections', 'at least two');
  if (sections.length > MOST_SECTIONS) {
    throw new Fault('input-too-large', 'tank sections', `${sections.length}`);
  }
  sections.forEach(({ xM, outline }, k) => {
    checkFinite(xM, `tank section ${k}, x`);
    const before = sections[k - 1];
    if (before !== undefined && !(xM > before.xM)) {
      throw new Fault('input-contradiction', `tank section ${k}`, 'x does not grow');
    }
    if (outline.length < 3) throw new Fault('input-too-few', `tank section ${k}`, 'corners');
    if (outline.length > MOST_CORNERS) {
      throw new Fault('input-too-large', `tank section ${k}`, `${outline.length} corners`);
    }
    for (const { yM, zM } of outline) {
      checkRange(yM, -100, 100, `tank section ${k}, y`);
      checkRange(zM, -100, 100, `tank section ${k}, z`);
    }
  });
}

/** The liquid below a level. Between two sections area and moments run straight. */
export function liquidBelow(shape: TankShape, levelM: number, slope: LiquidSlope): LiquidBody {
  const cuts = shape.sections.map(({ xM, outline }) => {
    const corners = outline.map(({ yM, zM }): Corner => ({ y: yM, z: zM }));
    return { xM, ...polygonBelow(corners, levelM - slope.trimSlope * xM, slope.heelSlope) };
  });
  let volumeM3 = 0;
  let momentX = 0;
  let momentY = 0;
  let momentZ = 0;
  for (let k = 1; k < cuts.length; k++) {
    const aft = cuts[k - 1]!;
    const fore = cuts[k]!;
    const length = fore.xM - aft.xM;
    volumeM3 += (length * (aft.area + fore.area)) / 2;
    momentY += (length * (aft.momentY + fore.momentY)) / 2;
    momentZ += (length * (aft.momentZ + fore.momentZ)) / 2;
    momentX +=
      (length * (aft.xM * (2 * aft.area + fore.area) + fore.xM * (aft.area + 2 * fore.area))) / 6;
  }
  if (volumeM3 <= 0) return { volumeM3: 0, xM: 0, yM: 0, zM: 0 };
  return {
    volumeM3,
    xM: momentX / volumeM3,
    yM: momentY / volumeM3,
    zM: momentZ / volumeM3,
  };
}

/** Levels between which the tank is empty and full at that slope. */
function levelsOf({ sections }: TankShape, slope: LiquidSlope): { empty: number; full: number } {
  const over = sections.flatMap(({ xM, outline }) =>
    outline.map(({ yM, zM }) => zM - slope.heelSlope * yM + slope.trimSlope * xM),
  );
  return { empty: Math.min(...over), full: Math.max(...over) };
}

/** A tank fuller than this, or emptier than the rest of it, has no free surface to speak of. Rounding. */
const FULL_SHARE = 1e-9;

/**
 * Where the surface of a volume at rest meets the z axis, or that there is none, the tank being full
 * or empty. Throws `input-range` for more than the tank holds.
 */
export function levelAtRest(
  shape: TankShape,
  volumeM3: number,
  slope: LiquidSlope,
): { readonly levelM: number } | 'full' | 'empty' {
  const { empty, full } = levelsOf(shape, slope);
  const capacityM3 = liquidBelow(shape, full, slope).volumeM3;
  checkRange(volumeM3, 0, capacityM3 * (1 + FULL_SHARE), 'volume in the tank, m3');
  if (volumeM3 >= capacityM3 * (1 - FULL_SHARE)) return 'full';
  if (volumeM3 <= capacityM3 * FULL_SHARE) return 'empty';
  const excess = (level: number) => liquidBelow(shape, level, slope).volumeM3 - volumeM3;
  return { levelM: bracketedRoot(excess, empty, full) };
}

/** The liquid of a volume at rest at a slope. Throws `input-range` for more than the tank holds. */
export function liquidAtRest(shape: TankShape, volumeM3: number, slope: LiquidSlope): LiquidBody {
  const rest = levelAtRest(shape, volumeM3, slope);
  if (rest === 'empty') return { volumeM3: 0, xM: 0, yM: 0, zM: 0 };
  if (rest === 'full') return wholeTank(shape);
  return liquidBelow(shape, rest.levelM, slope);
}

/** What a tank holds when it is full. */
export function wholeTank(shape: TankShape): LiquidBody {
  const level = { heelSlope: 0, trimSlope: 0 };
  return liquidBelow(shape, levelsOf(shape, level).full, level);
}

/** Volume by a sounding: depth of liquid over the striking place, at the slope she had. */
export function volumeOfSounding(
  shape: TankShape,
  at: { readonly xM: number; readonly yM: number; readonly zM: number },
  soundingM: number,
  slope: LiquidSlope,
): number {
  checkRange(soundingM, 0, 50, 'sounding, m');
  const levelM = at.zM + soundingM - slope.heelSlope * at.yM + slope.trimSlope * at.xM;
  return liquidBelow(shape, levelM, slope).volumeM3;
}
