import { BLOCK_S, type RollModel } from './roll-model.ts';
import { pushedHeel, Whitened } from './whitened.ts';

/** What was done to the vessel, as the course of her heel tells it. */
export interface Happening {
  readonly kind: 'wake' | 'gust' | 'wind' | 'moved' | 'line';
  /** Block with which it began. */
  readonly from: number;
  /** Squared standard deviations it explains, cleared of what trying many shapes gives by chance. */
  readonly score: number;
  readonly sizeDeg: number;
  /** Does a new heel last? */
  readonly isLasting: boolean;
  /** Seconds from `from` until nothing pushes her any more, or nothing otherwise than it will. */
  readonly overAfterS: number;
  /** Is the rest of her motion lately her own? */
  readonly isCalm: boolean;
  /** Of a new heel that lasts: could it still be a gust that has not yet let go? */
  readonly mayPass: boolean;
  readonly sentence: string;
}

/** A happening while the best is still looked for. */
type Candidate = Omit<Happening, 'isCalm' | 'mayPass'> & { readonly course: Float64Array };

interface Push {
  readonly kind: Happening['kind'];
  readonly at: (sinceS: number) => number;
  readonly isLasting: boolean;
  readonly overAfterS: number;
  readonly sentence: (sizeDeg: number) => string;
}

const degrees = (value: number) => `${Math.abs(value).toFixed(Math.abs(value) < 0.1 ? 3 : 2)}°`;
const side = (sizeDeg: number) => (sizeDeg > 0 ? 'starboard' : 'port');

const smooth = (share: number) => {
  const inside = Math.min(1, Math.max(0, share));
  return inside * inside * (3 - 2 * inside);
};

/** A person crosses a deck of a workboat in two seconds or so. */
const WALKING_S = 2;

const PUSHES: readonly Push[] = [
  {
    kind: 'moved',
    isLasting: true,
    overAfterS: WALKING_S,
    at: (s) => smooth(s / WALKING_S),
    sentence: (size) =>
      `she went over to ${side(size)} by ${degrees(size)} within some ${WALKING_S} s and stayed there, as when a person or a weight has moved`,
  },
  ...[8, 12, 16, 20, 25].map(
    (backS): Push => ({
      kind: 'moved',
      isLasting: false,
      overAfterS: backS + 2 * WALKING_S,
      at: (s) => smooth(s / WALKING_S) - smooth((s - backS - WALKING_S) / WALKING_S),
      sentence: (size) =>
        `she went over to ${side(size)} by ${degrees(size)} within some ${WALKING_S} s and back some ${backS} s later, as when a person walks over and back`,
    }),
  ),
  ...[9, 16].map(
    (risingS): Push => ({
      kind: 'wind',
      isLasting: true,
      overAfterS: risingS,
      at: (s) => smooth(s / risingS),
      sentence: (size) =>
        `she went over to ${side(size)} by ${degrees(size)} within some ${risingS} s and stayed there, as when the wind changes`,
    }),
  ),
  ...[
    [2.5, 8],
    [3, 12],
    [4, 18],
  ].map(
    ([risingS = 3, fallingS = 12]): Push => ({
      kind: 'gust',
      isLasting: false,
      overAfterS: risingS + fallingS,
      at: (s) => {
        const share = s < risingS ? s / risingS : 1 - (s - risingS) / fallingS;
        return share <= 0 ? 0 : 0.5 - 0.5 * Math.cos(Math.PI * share);
      },
      sentence: (size) =>
        `she was pressed to ${side(size)} by ${degrees(size)} within some ${risingS} s and let go over ${fallingS} s, as by a gust`,
    }),
  ),
];

const GRAVITY_M_S2 = 9.81;
const BOATS = [3.5, 4.5, 6].flatMap((speedMS) =>
  [45, 75, 120].map((distanceM) => ({ speedMS, distanceM })),
);
const TURNING_S = 13;

/** Kelvin's wake in deep water: sqrt(3/2) g / (2 pi U) at first, rising by g / (4 pi y0) each second. */
function wave(boat: (typeof BOATS)[number], phase: number): (sinceS: number) => number {
  const frequency = (Math.sqrt(1.5) * GRAVITY_M_S2) / (2 * Math.PI * boat.speedMS);
  const rise = GRAVITY_M_S2 / (4 * Math.PI * boat.distanceM);
  return (s) => {
    if (s <= 0) return 0;
    const height = (1 - Math.exp(-((s / 2.5) ** 2))) * Math.exp(-s / TURNING_S);
    const felt = Math.exp(-(((frequency + rise * s) / 0.6) ** 2));
    const turns = frequency * s + (rise * s * s) / 2;
    return height * felt * Math.cos(2 * Math.PI * turns + phase);
  };
}

/** Onsets tried: from so many blocks before the suspicion to so many after. */
const ONSET_BEFORE = 20;
const ONSET_AFTER = 8;
const ONSET_STEP = 3;
/** Two sizes are fitted to a wake and a line's threshold is chosen by the data: they pay for it. */
const SECOND_SIZE_COSTS = 2;
/** Explaining less than this many squared deviations is explaining nothing. */
const LEAST_SCORE = 12;
/** What lasts explains so many squared deviations more than a gust does, to be known from it; ours. */
const LASTING_LEAD = 9;
/** What is left over is her own under this mean squared deviation, over a roll or so many blocks. */
const CALM_ENERGY = 2;
const FEWEST_LATELY = 10;

/**
 * The likeliest of all shapes tried about a suspicion at block `about`, or null when none explains
 * what is seen. `heelDeg`: blocks of one instrument from a quiet time before it until now.
 */
export function whatHappened(
  heelDeg: ArrayLike<number>,
  model: RollModel,
  about: number,
): Happening | null {
  const whitened = new Whitened(heelDeg, model);
  let best: Candidate | null = null;
  let gust = 0;
  const take = (one: Candidate) => {
    if (one.kind === 'gust') gust = Math.max(gust, one.score);
    if (best === null || one.score > best.score) best = one;
  };
  const last = Math.min(about + ONSET_AFTER, whitened.count - 4);
  const pushes = coursesOf(PUSHES, model, whitened.count);
  const waves = BOATS.map((boat) =>
    [0, Math.PI / 2].map((phase) => pushedHeel(model, whitened.count, 0, wave(boat, phase))),
  );
  for (let from = Math.max(1, about - ONSET_BEFORE); from <= last; from += ONSET_STEP) {
    for (const push of pushes) take(pushed(whitened, from, push));
    for (const [n, boat] of BOATS.entries()) take(waved(whitened, model, from, boat, waves[n]!));
  }
  for (const held of [1, -1]) take(heldBack(whitened, heelDeg, model, about, held));
  const found = best as Candidate | null;
  if (found === null || found.score < LEAST_SCORE) return null;
  const { course, ...happening } = found;
  const lately = Math.max(FEWEST_LATELY, Math.ceil(model.periodS / BLOCK_S));
  const isCalm = whitened.leftOver(course, lately) < CALM_ENERGY;
  const mayPass = found.isLasting && found.score - gust < LASTING_LEAD;
  return { ...happening, isCalm, mayPass };
}

/** A push and the heel it makes from its beginning on: the same at whatever block it begins. */
type Course = Push & { readonly heelDeg: Float64Array };

function coursesOf(pushes: readonly Push[], model: RollModel, count: number): Course[] {
  return pushes.map((push) => ({ ...push, heelDeg: pushedHeel(model, count, 0, push.at) }));
}

function pushed(whitened: Whitened, from: number, push: Course): Candidate {
  const { heelDeg } = push;
  const { gain, size, course } = whitened.explainedBy(
    whitened.shape((k) => heelDeg[k - from]!, from),
  );
  const { kind, isLasting, overAfterS } = push;
  const sentence = push.sentence(size);
  return { kind, from, score: gain, sizeDeg: size, isLasting, overAfterS, course, sentence };
}

function waved(
  whitened: Whitened,
  model: RollModel,
  from: number,
  boat: (typeof BOATS)[number],
  waves: readonly Float64Array[],
): Candidate {
  const [one, other] = waves.map((heel) => whitened.shape((k) => heel[k - from]!, from));
  const { gain, size, course } = whitened.explainedByTwo(one!, other!);
  const frequency = (Math.sqrt(1.5) * GRAVITY_M_S2) / (2 * Math.PI * boat.speedMS);
  const rise = GRAVITY_M_S2 / (4 * Math.PI * boat.distanceM);
  const firstS = (1 / frequency).toFixed(1);
  const laterS = (1 / (frequency + 10 * rise)).toFixed(1);
  const sentence = `waves from outside: some ${firstS} s long at first and ${laterS} s ten seconds later, as a boat's wake comes; her own roll takes ${model.periodS.toFixed(1)} s`;
  const score = gain - SECOND_SIZE_COSTS;
  // From then on the waves move her less than she moves by herself.
  const overAfterS = TURNING_S * Math.log(Math.max(2, (2 * size) / model.rollDeg));
  return {
    ...{ kind: 'wake', from, score, sizeDeg: size, isLasting: false, overAfterS },
    ...{ course, sentence },
  };
}

/** A line or fender holds her back like a spring beyond a heel on one side: seen as pushes whenever she is there. */
function heldBack(
  whitened: Whitened,
  heelDeg: ArrayLike<number>,
  model: RollModel,
  about: number,
  held: number,
): Candidate {
  const from = Math.max(1, about - ONSET_BEFORE);
  let [sum, count] = [0, 0];
  for (let k = 0; k < from; k++) {
    if (Number.isNaN(heelDeg[k])) continue;
    sum += heelDeg[k]!;
    count += 1;
  }
  const middle = count > 0 ? sum / count : (heelDeg[0] ?? 0);
  const tautDeg = 0.6 * model.rollDeg;
  const heel = pushedHeel(model, whitened.count, from, (sinceS) => {
    const now = heelDeg[Math.round(sinceS / BLOCK_S - 0.5) + from]!;
    return Number.isNaN(now) ? 0 : -held * Math.max(0, held * (now - middle) - tautDeg);
  });
  const { gain, size, course } = whitened.explainedBy(whitened.shape((k) => heel[k]!, from));
  const sentence = `she is held back when she rolls to ${side(held)}, as by a line or a fender, and not when she rolls the other way`;
  // A push the other way would be no line.
  const score = size > 0 ? gain - SECOND_SIZE_COSTS : 0;
  const overAfterS = Number.POSITIVE_INFINITY;
  return {
    ...{ kind: 'line', from, score, sizeDeg: size, isLasting: false, overAfterS },
    ...{ course, sentence },
  };
}

/** A lasting change explains at least so many squared deviations, to be one; our choice. */
const LASTING_SCORE = 22;
/** Onsets tried for a change anywhere in a state: so many blocks apart, and so many at most. */
const LASTING_STEP = 5;
const MOST_ONSETS = 30;
const EDGE = 8;

/**
 * A last look over everything counted before a reading is offered: has she gone over to another
 * heel in it, slowly or at once? Null: no.
 */
export function lastingChange(
  heelDeg: ArrayLike<number>,
  model: RollModel,
): Pick<Happening, 'kind' | 'from' | 'sizeDeg' | 'sentence'> | null {
  const whitened = new Whitened(heelDeg, model);
  const lasting = coursesOf(
    PUSHES.filter(({ isLasting }) => isLasting),
    model,
    whitened.count,
  );
  const step = Math.max(LASTING_STEP, Math.ceil(whitened.count / MOST_ONSETS));
  let best: Candidate | null = null;
  for (let from = 0; from < whitened.count - EDGE; from += step) {
    for (const push of lasting) {
      const one = pushed(whitened, from, push);
      if (best === null || one.score > best.score) best = one;
    }
  }
  return best !== null && best.score >= LASTING_SCORE ? best : null;
}
