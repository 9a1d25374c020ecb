import { studentTBeyond } from '../numerics/student-t.ts';
import type { LookedFor, PlottedTest, ShapeName } from './shape.ts';
import { oneReadingOff, oneScale } from './shapes-of-instruments.ts';
import { curve, oneSideShort, oneStateOff, oneWeight, step } from './shapes-of-states.ts';

export interface Shape extends LookedFor {
  /** Is it more than chance? Without it the marks are empty and the words say so. */
  readonly seen: boolean;
}

export interface Diagnosis {
  readonly troubleSeen: boolean;
  /** `no trouble seen in the plot`, or the shapes that are seen. */
  readonly verdict: string;
  /** The likeliest first (improbable by chance, the places it was looked for at half counted); those that could not be looked for last. */
  readonly shapes: readonly Shape[];
}

/**
 * Share of good tests in which chance may show some shape or other; shared out over the shapes looked
 * for. Our setting: no text of the trade gives a number. It is as high as this
 * because a repeated shift costs minutes and a missed one the day.
 */
export const CHANCE_OF_FALSE_TROUBLE = 0.06;

/**
 * In the order of the shapes, how much the number of places counts that one was looked for at: 1
 * would put a state off behind a curve far too often, 0 before it. Our setting, where simulated
 * tests with one shape of five times its own standard error name the right one first most evenly.
 */
const PLACES_COUNT = 0.65;
/**
 * How much likelier than others a shape is beforehand: a gust in one state is the commonest trouble, a
 * curve or a wrong scale the rarest. Ours, where all seven are named first in nine of ten such tests.
 */
const BEFOREHAND: Partial<Record<ShapeName, number>> = {
  'one state off': 1.9,
  'a step': 1.25,
  'moment of one weight': 1.1,
  'one side short': 0.9,
  'a curve': 0.45,
  'scale of one instrument': 0.35,
};
/**
 * Shares of the chance of false trouble: a jump of the zero hides best behind a straight line and
 * moves GM most (Hansen 1985: R squared .9994, GM 1.6 % off), so it gets a double share.
 */
const CHANCE_SHARES: Partial<Record<ShapeName, number>> = { 'a step': 2 };
/** Two shapes whose t is nearer than this share are one and the same in these points. */
const SAME_SHARE = 1e-6;

/**
 * Looks for every shape in the points. Shapes only: what caused one follows from other evidence.
 * That none is seen proves nothing about what no plot can show (`cannot-show.ts`).
 */
export function diagnosePlot(plotted: PlottedTest): Diagnosis {
  const lookedFor = [
    oneStateOff(plotted),
    oneReadingOff(plotted),
    step(plotted),
    oneSideShort(plotted),
    curve(plotted),
    oneScale(plotted),
    oneWeight(plotted),
  ].sort((left, right) => rankOf(left) - rankOf(right));
  const shareOf = (one: LookedFor) => CHANCE_SHARES[one.shape] ?? 1;
  const shares = lookedFor
    .filter((one) => one.probability !== null)
    .reduce((sum, one) => sum + shareOf(one), 0);
  const levelOf = (one: LookedFor) => (CHANCE_OF_FALSE_TROUBLE * shareOf(one)) / shares;
  const shapes = lookedFor.map((one) => withAlikes(judged(one, levelOf(one)), lookedFor));
  const seen = shapes.filter((shape) => shape.seen);
  return {
    troubleSeen: seen.length > 0,
    verdict:
      seen.length > 0
        ? `seen in the plot: ${seen.map((shape) => shape.shape).join(', ')}`
        : 'no trouble seen in the plot',
    shapes,
  };
}

/** Logarithm of a probability whose places count in part; what could not be looked for comes last. */
function rankOf({ shape, t, degreesOfFreedom, places }: LookedFor): number {
  if (t === null || degreesOfFreedom === null) return Number.POSITIVE_INFINITY;
  const alone = Math.max(Number.MIN_VALUE, studentTBeyond(t, degreesOfFreedom));
  return Math.log(alone) + PLACES_COUNT * Math.log(places) - Math.log(BEFOREHAND[shape] ?? 1);
}

/** A state off and the weight that was away in that state alone are one: the words say both. */
function withAlikes(shape: Shape, lookedFor: readonly LookedFor[]): Shape {
  if (!shape.seen || shape.t === null) return shape;
  const size = Math.abs(shape.t);
  const alike = lookedFor.filter(
    (one) =>
      one.shape !== shape.shape &&
      one.t !== null &&
      one.degreesOfFreedom === shape.degreesOfFreedom &&
      Math.abs(Math.abs(one.t) - size) <= SAME_SHARE * size,
  );
  if (alike.length === 0) return shape;
  const names = alike.map((one) => one.shape).join(', ');
  return { ...shape, words: `${shape.words}; these points cannot tell it from: ${names}` };
}

function judged(one: LookedFor, level: number): Shape {
  if (one.probability === null) return { ...one, seen: false };
  if (one.probability < level) return { ...one, seen: true };
  const words = 'looked for, not seen';
  return { ...one, seen: false, words, states: [], instrument: null, weight: null };
}
