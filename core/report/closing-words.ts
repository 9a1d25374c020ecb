import type { ClosingCause } from '../survey/closing.ts';

/** What the end of the day points to, as one would say it. */
export const CLOSING_WORDS: Readonly<Record<ClosingCause, string>> = {
  unchanged: 'she lies as she lay',
  leak: 'water came in: a leak, or a space that fills',
  rain: 'rain or spray: she is deeper and the weights are heavier',
  transfer: 'something ran or was carried across: a tank, a bilge, a person',
  'people-moved': 'people stand elsewhere',
  'sensor-zero': 'an instrument shows another zero of its own',
  'weights-soaked': 'the weights are heavier than they were',
  'water-changed': 'she lies in another water',
  'not-all-taken': 'not everything was taken again',
};
