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
  'items-to-add-many': {
    means: 'much of the lightship is not aboard',
    remedy:
      'Test her when she is at least 98 % complete, or give the items better masses and places.',
    clause: 'US Coast Guard guideline (by a summary); IS Code annex 1 4.1 (from memory)',
  },
  'items-to-deduct-many': {
    means: 'much is aboard that is no part of the lightship',
    remedy: 'Take it ashore before the test; small vessels are often allowed more.',
    clause: 'IS Code annex 1 4.1 (from memory)',
  },
  'lightship-not-agreed': {
    means: 'it is not agreed whether these belong to the lightship; the result is provisional',
    remedy: 'Agree on the sheet with owner and authority before the test.',
    clause: 'common practice, no source',
  },
  'items-without-photograph': {
    means: 'items of the survey have no photograph in the record',
    remedy: 'Photograph each where it lies.',
    clause: 'our setting',
  },
  'gm-over-three-kg': {
    means: 'a small error of GM is a large one of KG',
    remedy: 'Let the authority judge whether calculated weights serve better.',
    clause: 'HSC Code 2.7.2 and its explanation',
  },
  'closing-not-taken': {
    means: 'not taken again after the last shift, so a change cannot be excluded',
    remedy: 'Take it before people and weights leave.',
    clause: 'common practice, no source',
  },
  'closing-deeper': {
    means: 'she lies at another draught than before the first shift',
    remedy: 'Look for water below and for what came aboard or left; read all freeboards again.',
    clause: 'the margin is our setting',
  },
  'closing-zero-moved': {
    means: 'the zero is not where it was',
    remedy: 'Find what moved: liquids, people, lines, a weight off its mark; repeat the zero.',
    clause: 'the margin is our setting',
  },
  'closing-water-changed': {
    means: 'the water is of another density than before',
    remedy: 'Use the density at the freeboards; sample at more places and depths.',
    clause: 'the margin is our setting',
  },
  'closing-sounding': {
    means: 'the tank holds another depth than before',
    remedy: 'Check valves and cross-connections; use the sounding nearest to the freeboards.',
    clause: 'IS Code annex 1 2.1 (from memory): no transfer during the test',
  },
  'closing-sensor-zero': {
    means: "the instrument's own zero moved",
    remedy: 'Check its mounting and its warmth; take a drift off or leave it out.',
    clause: 'the margin is our setting',
  },
  'closing-weight': {
    means: 'the weight weighs other than before',
    remedy: 'Was it wet or soaked? Use the mass it had when it was moved.',
    clause: 'IS Code 8.2.2.8 (from memory)',
  },
  'closing-person': {
    means: 'stands elsewhere than during the test',
    remedy: 'Find out when; people keep their stations at every reading.',
    clause: 'A.749 annex 1 section 4: weights and people constant',
  },
  'deflection-small': {
    means: 'the largest deflection to this side is small for the scale it is read on',
    remedy: 'Use a longer pendulum or a wider tube, or heel her more.',
    clause: 'IS Code annex 1 2.4.1 (from memory); six inches in US practice',
  },
  'heel-not-lowered': {
    means: 'finer sensors are no reason for a smaller heel',
    remedy: 'Plan one to four degrees to each side whatever the instruments.',
    clause: 'IS Code 8.2.2.9 as quoted by the Netherlands Shipping Inspectorate',
  },
  'no-pendulum-beside': {
    means: 'no pendulum or tube stands beside the sensors',
    remedy: 'Rig at least one, or agree on it with the authority beforehand.',
    clause: 'IS Code 8.2.2.9 as quoted by the Netherlands Shipping Inspectorate',
  },
  'instruments-few': {
    means: 'a single instrument cannot show that it is wrong',
    remedy: 'Use three, at least two.',
    clause: 'IS Code 8.2.2.9 as quoted by the Netherlands Shipping Inspectorate',
  },
  'deck-edge-near': {
    means: 'the deck edge comes under water near the planned heel: waterplane and GM change there',
    remedy: 'Heel her less, or test her lighter.',
    clause: 'twice the planned heel is our setting',
  },
  'opening-near': {
    means: 'this opening comes under water near the planned heel',
    remedy: 'Close and secure it before the first shift.',
    clause: 'twice the planned heel is our setting',
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
