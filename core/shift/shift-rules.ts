import { FIRST_SHIFT_SHARE, LEAST_GM_M, STOP_AT_TIMES_PREDICTED } from './safety.ts';

/** What is done before the first weight moves, in the words read out on deck. */
export const BEFORE_THE_FIRST_SHIFT: readonly string[] = [
  'All weights at their marks, lines slack, nobody moving: she must swing free. Push her; she returns slowly to one and the same rest.',
  'Openings within twice the planned heel are shut, and what can slide or swing is secured.',
  `The first shift is at most ${FIRST_SHIFT_SHARE} of the greatest moment: GM is a guess until it is read. Then plan again.`,
];

/** When to stop, and when nothing is read. */
export const STOP_RULES: readonly string[] = [
  `Weight back and people off: a heel over ${STOP_AT_TIMES_PREDICTED} times the predicted, a heel that keeps growing, a zero that does not return, two positions of rest, or GM under ${LEAST_GM_M} m. These are our settings.`,
  'No reading with a load on a hook.',
];
