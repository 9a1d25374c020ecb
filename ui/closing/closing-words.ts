import type { ClosingCause } from '#core/survey/closing.ts';

/** What the end of a test, set beside its beginning, points to. A person decides. */
export const CAUSE_WORDS: Readonly<Record<ClosingCause, string>> = {
  unchanged: 'Nothing changed that is beyond what reading leaves.',
  leak: 'She lies deeper, and no sounding or weight taken again accounts for it: water came in. Look into every space.',
  rain: 'She lies deeper and the weights are heavier: rain, or spray on deck.',
  transfer: 'Something moved across, or one tank filled from another.',
  'people-moved': 'Somebody stood elsewhere.',
  'sensor-zero': 'A sensor changed its own zero: the drift is its, not hers.',
  'weights-soaked': 'Weights took up water.',
  'water-changed': 'She lies in other water than at the beginning.',
  'not-all-taken': 'Not all was taken again; what was not taken says nothing.',
};
