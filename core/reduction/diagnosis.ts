import type { LookedFor, PlottedTest } from './shape.ts';
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
  /** Most improbable by chance first; those that could not be looked for last. */
  readonly shapes: readonly Shape[];
}

/**
 * Share of good tests in which chance may show some shape or other; each shape looked for gets an
 * equal part of it. Our setting: no text of the trade gives a number. It is as high as this
 * because a repeated shift costs minutes and a missed one the day.
 */
export const CHANCE_OF_FALSE_TROUBLE = 0.1;

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
  ].sort((left, right) => (left.probability ?? 2) - (right.probability ?? 2));
  const count = lookedFor.filter((one) => one.probability !== null).length;
  const shapes = lookedFor.map((one) => judged(one, CHANCE_OF_FALSE_TROUBLE / count));
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

function judged(one: LookedFor, level: number): Shape {
  if (one.probability === null) return { ...one, seen: false };
  if (one.probability < level) return { ...one, seen: true };
  const words = 'looked for, not seen';
  return { ...one, seen: false, words, states: [], instrument: null, weight: null };
}
