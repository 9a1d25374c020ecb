/** The faults of loading conditions: code, what it means, what to do. */
export const LOADING_FAULTS = {
  'loading-unknown': {
    means: 'a space, opening, superstructure or condition is named that is not there',
    remedy: 'Compare the name, letter by letter, with the list of spaces or with the hull file.',
  },
  'loading-no-limit': {
    means: 'no clause asked of this vessel can be judged, so that nothing limits her',
    remedy: 'Name a rule set that applies to her, with clauses that may judge.',
  },
} as const;
