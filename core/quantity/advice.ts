/**
 * What is to be thought over and does not stop the work: a stable code, what it means, what to do,
 * and what it rests on. `clause` is printed beside it; a text that was not seen says "from
 * memory", a limit of ours says "our setting". IS Code: IMO 2008 Intact Stability Code, MSC.267(85).
 */
export const ADVICE = {
  'water-temperature-missing': {
    means: 'no temperature was taken, so the density cannot be judged',
    remedy: 'Take the temperature of the sample.',
    clause: 'IS Code annex 1 4.2.4 (from memory)',
  },
  'water-too-light': {
    means: 'lighter than fresh water of that temperature',
    remedy: 'Read the hydrometer again; apply no correction to 15 deg C.',
    clause: 'Tanaka 2001, Metrologia 38; the margin is our setting',
  },
  'water-too-heavy': {
    means: 'heavier than any sea water of that temperature',
    remedy: 'Read the hydrometer again.',
    clause: 'EOS-80, UNESCO Technical Paper 44; the salinity is our setting',
  },
  'water-layered': {
    means: 'the samples are not of one water',
    remedy: 'Draw water from depth, forward, amidships and aft.',
    clause: 'IS Code annex 1 4.2.4 (from memory); the margin is our setting',
  },
  'freeboards-few': {
    means: 'fewer freeboards on this side than asked, or no full set of draught marks instead',
    remedy: 'Read at least five about equally spaced on each side, or all marks on both.',
    clause: 'IS Code 8.4.1.1',
  },
  'freeboards-spread': {
    means: 'the freeboards of this side leave a long part of her without one',
    remedy: 'Space them about equally over her length.',
    clause: 'IS Code 8.4.1.1; the share is our setting',
  },
  'level-off-plane': {
    means: 'this point lies off the waterline through all others by more than chance',
    remedy: 'Read it again, and look at its mark and its height over the baseline.',
    clause: 'IS Code annex 1 4.2.8 (from memory); no text gives a number, the chance is ours',
  },
  'levels-scatter': {
    means: 'the points scatter more about the waterline than their readings are said to',
    remedy: 'Read them again in calmer water; the scatter is used in place of what was stated.',
    clause: 'no text gives a number; the chance is ours',
  },
  'marks-against-freeboards': {
    means: 'draught marks and freeboards tell two waterlines',
    remedy: 'Check the heights of the marks and of the sheer line against the dock.',
    clause: 'a mark replaces a freeboard only if verified in dock (from memory)',
  },
  'list-large': {
    means: 'she lies with a list while the weights stand in their first places',
    remedy: 'Trim her upright before the first shift.',
    clause: 'US Coast Guard guideline; IS Code 8.2.2.7 (from memory)',
  },
  'trim-large': {
    means: 'her trim is large; hydrostatics for level trim do not serve',
    remedy: 'Use hydrostatics for the trim she has, or trim her level.',
    clause: 'US Coast Guard guideline; class rules',
  },
  'trim-changed': {
    means: 'weights moved fore and aft change her trim while she is inclined',
    remedy: 'Move weights square across, or give the hull so that each state has its own trim.',
    clause: 'trim unchanged (from memory); the limit is our setting',
  },
} as const satisfies Record<string, { means: string; remedy: string; clause: string }>;

export type AdviceCode = keyof typeof ADVICE;

/** One such thing as it was found; figures in `unit`, nothing rounded. */
export interface Advice {
  readonly code: AdviceCode;
  /** Which point, side, tank, item or move. */
  readonly where: string;
  readonly found: number | null;
  readonly limit: number | null;
  readonly unit: string;
}
