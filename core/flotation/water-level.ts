import { Fault } from '../fault/fault.ts';
import { checkFinite, checkRange } from '../quantity/check.ts';

export const SIDES = ['port', 'starboard', 'centre'] as const;
export type Side = (typeof SIDES)[number];

/** A freeboard: the distance measured plumb from a marked point of the side down to the water. */
export interface Freeboard {
  readonly point: string;
  readonly side: 'port' | 'starboard';
  /** The marked point in ship axes: forward of the after perpendicular, from the centreline, over the baseline. */
  readonly xM: number;
  readonly halfBreadthM: number;
  readonly heightM: number;
  readonly freeboardM: number;
}

/** A draught mark as read. */
export interface DraughtMark {
  readonly point: string;
  readonly side: Side;
  readonly xM: number;
  readonly halfBreadthM: number;
  readonly draughtM: number;
  /** Height of the mark's zero over the baseline; below zero where it counts from under the keel. */
  readonly zeroHeightM: number;
}

/** Where the water stands at one point of the hull, in ship axes. */
export interface WaterLevel {
  readonly point: string;
  readonly kind: 'freeboard' | 'draught-mark';
  readonly side: Side;
  readonly xM: number;
  readonly yM: number;
  /** Height of the water over the baseline, were the freeboard measured along the ship's own z. */
  readonly heightM: number;
  /** Of a freeboard: what was measured plumb. The slope of the water lengthens it along z. */
  readonly plumbM: number;
}

const MOST_POINTS = 60;
const MOST_LENGTH_M = 500;

const yOf = (side: Side, halfBreadthM: number): number =>
  side === 'centre' ? 0 : (side === 'starboard' ? 1 : -1) * halfBreadthM;

/** Freeboards and draught marks brought to heights of the water. Throws `input-range`, `input-too-large`. */
export function waterLevels(
  freeboards: readonly Freeboard[],
  marks: readonly DraughtMark[],
): WaterLevel[] {
  if (freeboards.length + marks.length > MOST_POINTS) {
    throw new Fault('input-too-large', 'freeboards and marks', `at most ${MOST_POINTS}`);
  }
  const ofFreeboards = freeboards.map((one): WaterLevel => {
    const freeboardM = checkRange(one.freeboardM, -5, 30, `freeboard ${one.point}, m`);
    return {
      ...placed(one),
      kind: 'freeboard',
      heightM: checkRange(one.heightM, -50, 50, `height of ${one.point}, m`) - freeboardM,
      plumbM: freeboardM,
    };
  });
  const ofMarks = marks.map((one): WaterLevel => {
    const draughtM = checkRange(one.draughtM, -5, 40, `draught ${one.point}, m`);
    const zeroM = checkFinite(one.zeroHeightM, `zero of ${one.point}, m`);
    return { ...placed(one), kind: 'draught-mark', heightM: draughtM + zeroM, plumbM: 0 };
  });
  const levels = [...ofFreeboards, ...ofMarks];
  const names = new Set(levels.map((one) => one.point));
  if (names.size < levels.length) {
    throw new Fault('input-contradiction', 'freeboards and marks', 'two points have the same name');
  }
  return levels;
}

function placed(one: Freeboard | DraughtMark): Pick<WaterLevel, 'point' | 'side' | 'xM' | 'yM'> {
  const half = checkRange(one.halfBreadthM, 0, 50, `half breadth at ${one.point}, m`);
  return {
    point: one.point,
    side: one.side,
    xM: checkRange(one.xM, -MOST_LENGTH_M, MOST_LENGTH_M, `x of ${one.point}, m`),
    yM: yOf(one.side, half),
  };
}
