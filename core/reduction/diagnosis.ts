import type { PlottedTest, Shape } from './shape.ts';
import { oneReadingOff, oneScale } from './shapes-of-instruments.ts';
import { curve, oneSideShort, oneStateOff, oneWeight, step } from './shapes-of-states.ts';

export interface Diagnosis {
  readonly troubleSeen: boolean;
  /** `no trouble seen in the plot`, or the shapes that are seen. */
  readonly verdict: string;
  /** Most improbable by chance first; those that could not be looked for last. */
  readonly shapes: readonly Shape[];
}

/**
 * Looks for every shape in the points. Shapes only: what caused one follows from other evidence.
 * That none is seen proves nothing about what no plot can show (`cannot-show.ts`).
 */
export function diagnosePlot(plotted: PlottedTest): Diagnosis {
  const shapes = [
    oneStateOff(plotted),
    oneReadingOff(plotted),
    step(plotted),
    oneSideShort(plotted),
    curve(plotted),
    oneScale(plotted),
    oneWeight(plotted),
  ].sort((left, right) => (left.probability ?? 2) - (right.probability ?? 2));
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
