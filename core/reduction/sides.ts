import { leastSquares, type StraightLine, straightLine } from '../numerics/least-squares.ts';
import { type FTest, fTest } from './line.ts';

/** The two sides of a test apart: to starboard and to port of its zero. */
export interface Sides {
  /** The states of each side on a line of its own; null for fewer than three or one moment. */
  readonly starboard: StraightLine | null;
  readonly port: StraightLine | null;
  /** One slope, an intercept for each side. */
  readonly zeroJump: {
    /** Tangent: the port side's states beside the starboard side's. */
    readonly jump: number;
    readonly slope: number;
    readonly test: FTest;
  } | null;
}

/** Of the largest moment: less is a zero. */
const ZERO_SHARE = 0.02;

/**
 * Slopes of the sides and the jump of the zero between them. A zero belongs to the side last
 * heeled to; before any shift, to the first side heeled to. A jump that the straight line hides
 * well (R squared .9994 in Hansen 1985) shows here.
 */
export function compareSides(moments: readonly number[], tangents: readonly number[]): Sides {
  const sides = sidesOf(moments);
  const of = (side: 1 | -1): StraightLine | null => {
    const places = sides.flatMap((one, i) => (one === side ? [i] : []));
    const own = places.map((i) => moments[i]!);
    if (own.length < 3 || own.every((moment) => moment === own[0])) return null;
    return straightLine(
      own,
      places.map((i) => tangents[i]!),
    );
  };
  return { starboard: of(1), port: of(-1), zeroJump: zeroJump(moments, tangents, sides) };
}

function sidesOf(moments: readonly number[]): (1 | -1)[] {
  const scale = Math.max(...moments.map(Math.abs));
  const signs = moments.map((moment) =>
    Math.abs(moment) <= ZERO_SHARE * scale ? 0 : moment > 0 ? 1 : -1,
  );
  let last: 1 | -1 = signs.find((sign): sign is 1 | -1 => sign !== 0) ?? 1;
  return signs.map((sign) => {
    if (sign !== 0) last = sign as 1 | -1;
    return last;
  });
}

function zeroJump(
  moments: readonly number[],
  tangents: readonly number[],
  sides: readonly (1 | -1)[],
): Sides['zeroJump'] {
  const lowerDof = moments.length - 3;
  if (lowerDof < 1 || new Set(sides).size < 2) return null;
  const scale = Math.max(...moments.map(Math.abs));
  const design = moments.map((moment, i) => [1, moment / scale, sides[i] === -1 ? 1 : 0]);
  const { coefficients, cofactor, rest } = leastSquares(design, tangents);
  const jump = coefficients[2]!;
  const size = tangents.reduce((sum, one) => sum + one * one, 0);
  if (rest <= 1e-20 * size) return null;
  const f = jump ** 2 / ((rest / lowerDof) * cofactor[2]![2]!);
  return { jump, slope: coefficients[1]! / scale, test: fTest(f, 1, lowerDof) };
}
