import type { Quantity } from '../rule-quantity.ts';

type WindAndRoll = Extract<Quantity, { kind: 'wind-and-roll' }>;

/**
 * Tables of Spain, RD 543/2007 annex II 8, as printed, linear between rows. Under 1 m of height no
 * pressure is printed: that of 1 m is taken, the severe reading. The row of s for periods up to 6 s
 * is blank in the published law; 0.100 is from memory, and so is all that is interpolated with it.
 */
export const SPAIN_WIND: WindAndRoll['wind'] = {
  pressure: { at: [1, 2, 3, 4, 5, 6], value: [316, 386, 429, 460, 485, 504] },
};

export const SPAIN_ROLL: WindAndRoll['roll'] = {
  x1: {
    at: [2.4, 2.5, 2.6, 2.7, 2.8, 2.9, 3.0, 3.1, 3.2, 3.3, 3.4, 3.5],
    value: [1.0, 0.98, 0.96, 0.95, 0.93, 0.91, 0.9, 0.88, 0.86, 0.84, 0.82, 0.8],
  },
  x2: { at: [0.45, 0.5, 0.55, 0.6, 0.65, 0.7], value: [0.75, 0.82, 0.89, 0.95, 0.97, 1.0] },
  k: {
    at: [0, 1, 1.5, 2, 2.5, 3, 3.5, 4],
    value: [1.0, 0.98, 0.95, 0.88, 0.79, 0.74, 0.72, 0.7],
  },
  kRoundBare: 1.0,
  kSharp: 0.7,
  s: {
    at: [6, 7, 8, 12, 14, 16, 18, 20],
    value: [0.1, 0.098, 0.093, 0.065, 0.053, 0.044, 0.038, 0.035],
    fromMemoryUpTo: 6,
  },
};
