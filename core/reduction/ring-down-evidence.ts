import type { RingDownChange } from './ring-downs.ts';

/** What a change of her roll says beside the plot: where, which way, how sure, in words. */
export interface RingDownEvidence {
  readonly direction: 'stiffer' | 'softer' | 'more damped' | 'less damped';
  readonly states: readonly number[];
  /** Of so much by chance, in as many places as were looked at. */
  readonly probability: number;
  /** Does a shape that is seen in the plot point at one of these states? */
  readonly plotPointsThere: boolean;
  readonly words: string;
}

/**
 * Changes of period and damping as evidence for the diagnosis: a shape tells where the heel is
 * wrong, the roll tells apart from it whether something held her, dragged or flowed there.
 * `shapes`: those of the plot, their states numbered as the changes' are.
 */
export function ringDownEvidence(
  changes: readonly RingDownChange[],
  shapes: readonly { readonly seen: boolean; readonly states: readonly number[] }[],
): RingDownEvidence[] {
  const pointedAt = new Set(shapes.filter(({ seen }) => seen).flatMap(({ states }) => states));
  return changes.map(({ matter, change, states, probability, words }) => {
    const plotPointsThere = states.some((state) => pointedAt.has(state));
    const beside = plotPointsThere
      ? 'The plot points at that too.'
      : 'The plot shows nothing there: what holds her in every reading of one side alike can hide in the line.';
    return {
      direction: directionOf(matter, change),
      states,
      probability,
      plotPointsThere,
      words: `${words} ${beside}`,
    };
  });
}

function directionOf(matter: RingDownChange['matter'], change: number) {
  if (matter === 'period') return change < 0 ? 'stiffer' : 'softer';
  return change > 0 ? 'more damped' : 'less damped';
}
