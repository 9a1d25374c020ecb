import { Fault } from '../fault/fault.ts';
import { bracketedRoot } from '../numerics/root.ts';
import { radiansFromDegrees } from '../quantity/angle.ts';
import { afloatAtHeel, type Near, type Trimming } from './equilibrium.ts';
import { deckEdgeAt, type Hull, immersedOf, type Opening } from './hull.ts';
import { heightOverWaterM, type ShipPoint, type Waterline } from './waterline.ts';

/** One heel of a curve of levers. */
export interface KnPoint {
  readonly heelRad: number;
  readonly waterline: Waterline;
  readonly buoyancy: ShipPoint;
  /** Lever of buoyancy about the baseline's centre: y_B cos heel + z_B sin heel, m. */
  readonly knM: number;
}

/** KN at constant volume, heel by heel in the order given; negative heels are to port. */
export function knCurve(
  hull: Hull,
  volumeM3: number,
  heelsRad: readonly number[],
  trimming: Trimming,
): KnPoint[] {
  const found: KnPoint[] = [];
  for (const heelRad of heelsRad) {
    found.push(knAt(hull, volumeM3, heelRad, trimming, foreseen(found, heelRad)));
  }
  return found;
}

/** So many heels back a run of positions is carried on from; where it bends the search only takes longer. */
const CARRIED_ON_FROM = 3;

/** Trim and level at a heel, carried on from the last positions by the polynomial through them. */
function foreseen(found: readonly KnPoint[], heelRad: number): Near | undefined {
  const last = found.slice(-CARRIED_ON_FROM).map(({ waterline }) => waterline);
  if (last.length === 0) return undefined;
  const heels = last.map((one) => one.heelRad);
  const span = Math.max(...heels) - Math.min(...heels);
  const near = Math.abs(heelRad - heels.at(-1)!) <= span;
  const run = near && new Set(heels).size === heels.length ? last : last.slice(-1);
  const share = (k: number) =>
    run.reduce(
      (product, other, j) =>
        j === k
          ? product
          : (product * (heelRad - other.heelRad)) / (run[k]!.heelRad - other.heelRad),
      1,
    );
  const carried = (of: (one: Waterline) => number) =>
    run.reduce((sum, one, k) => sum + share(k) * of(one), 0);
  return { trimRad: carried((one) => one.trimRad), levelM: carried((one) => one.levelM) };
}

export function knAt(
  hull: Hull,
  volumeM3: number,
  heelRad: number,
  trimming: Trimming,
  near?: Near,
): KnPoint {
  const { waterline, cut } = afloatAtHeel(hull, volumeM3, heelRad, trimming, near);
  const { centre } = immersedOf(cut);
  const knM = centre.yM * Math.cos(heelRad) + centre.zM * Math.sin(heelRad);
  return { heelRad, waterline, buoyancy: centre, knM };
}

/** The righting lever of a centre of gravity: KN - KG sin heel - TCG cos heel, m. */
export function rightingLeverM(point: KnPoint, kgM: number, tcgM = 0): number {
  return point.knM - kgM * Math.sin(point.heelRad) - tcgM * Math.cos(point.heelRad);
}

/** Angles at which something happens as she heels to one side; null where it does not within 90 degrees. */
export interface HeelLimits {
  readonly deckEdgeRad: number | null;
  readonly openings: readonly {
    readonly name: string;
    readonly closing: Opening['closing'];
    readonly immersedRad: number | null;
  }[];
  /** Where the righting lever goes to zero and on below. */
  readonly vanishingRad: number | null;
}

export interface HeelLimitsQuestion {
  readonly volumeM3: number;
  readonly trimming: Trimming;
  readonly kgM: number;
  readonly tcgM: number;
  readonly side: 'starboard' | 'port';
}

const STEP_RAD = radiansFromDegrees(2.5);
const MOST_RAD = radiansFromDegrees(90);
const DECK_POINTS = 60;

/** When deck edge and openings come under water and the lever vanishes, heeling to one side. */
export function heelLimits(hull: Hull, question: HeelLimitsQuestion): HeelLimits {
  const { volumeM3, trimming, kgM, tcgM } = question;
  const way = question.side === 'starboard' ? 1 : -1;
  const known = new Map<number, KnPoint>();
  let near: Near | undefined;
  const at = (heelRad: number): KnPoint => {
    const before = known.get(heelRad);
    if (before !== undefined) return before;
    const point = knAt(hull, volumeM3, way * heelRad, trimming, near);
    near = point.waterline;
    known.set(heelRad, point);
    return point;
  };
  const deck = deckEdges(hull, way);
  const lowest = (heelRad: number) =>
    Math.min(...deck.map((point) => heightOverWaterM(at(heelRad).waterline, point)));
  return {
    deckEdgeRad: firstFall(lowest),
    openings: hull.openings.map((opening) => ({
      name: opening.name,
      closing: opening.closing,
      immersedRad: firstFall((heelRad) => heightOverWaterM(at(heelRad).waterline, opening)),
    })),
    vanishingRad: vanishing((heelRad) => way * rightingLeverM(at(heelRad), kgM, tcgM)),
  };
}

/** Points of the deck edge from end to end, on the starboard side (`way` 1) or port (-1). */
export function deckEdges(hull: Hull, way: 1 | -1): ShipPoint[] {
  const length = hull.toXM - hull.fromXM;
  return Array.from({ length: DECK_POINTS + 1 }, (_, k) => {
    const xM = hull.fromXM + (length * k) / DECK_POINTS;
    const edge = deckEdgeAt(hull, xM);
    if (edge === null) throw new Fault('hull-deck', `x ${xM}`, 'no deck edge there');
    return { ...edge, yM: way * edge.yM };
  });
}

/** Where a height falls to zero; 0 when it is under water upright already. */
function firstFall(height: (heelRad: number) => number): number | null {
  if (height(0) <= 0) return 0;
  for (let heel = 0; heel < MOST_RAD - 1e-9; heel += STEP_RAD) {
    if (height(heel + STEP_RAD) <= 0) return bracketedRoot(height, heel, heel + STEP_RAD);
  }
  return null;
}

/** The last zero from positive to negative on the way out, null if the lever is positive to 90 degrees or never. */
function vanishing(lever: (heelRad: number) => number): number | null {
  let positive = false;
  for (let heel = 0; heel < MOST_RAD - 1e-9; heel += STEP_RAD) {
    const after = lever(heel + STEP_RAD);
    if (positive && after <= 0) return bracketedRoot(lever, heel, heel + STEP_RAD);
    positive = after > 0;
  }
  return null;
}
