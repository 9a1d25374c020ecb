/** The faults of rule sets and of what they are asked: code, what it means, what to do. */
export const RULES_FAULTS = {
  'rules-shape': {
    means: 'a field of a rule set is missing, of the wrong kind or unknown',
    remedy: 'Compare the file with `heelwright schema rules`.',
  },
  'rules-unknown': {
    means: 'no rule set, or no clause of it, is called so',
    remedy: 'Name one of those listed, or give the file of the set.',
  },
} as const;
