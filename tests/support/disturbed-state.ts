import { createRandom, type Random } from '#core/numerics/random.ts';
import { rollStep } from '#core/steadiness/roll-model.ts';

const STEP_S = 0.1;
const GRAVITY_M_S2 = 9.81;

/** What may come between a reading and the truth; `none`: a quiet state. */
export const DISTURBANCE_KINDS = [
  ...['wake', 'gust', 'wind', 'moved', 'line'],
  ...['knock', 'drift', 'silent', 'stuck', 'saturated', 'vibration'],
] as const;
export type DisturbanceKind = (typeof DISTURBANCE_KINDS)[number] | 'none';

/** A vessel of the day, drawn once. */
export interface DrawnVessel {
  readonly periodS: number;
  readonly dampingRatio: number;
  readonly rollDeg: number;
  readonly noiseDeg: number;
  readonly windDeg: number;
}

export const INSTRUMENTS = ['fore', 'aft', 'mast'] as const;
export type InstrumentName = (typeof INSTRUMENTS)[number];
/** Each instrument's zero is so much above the one before it. */
export const ZERO_STEP_DEG = 0.02;
/** The mast's instrument sees so much more of a roll. */
const MORE_ROLL_ALOFT = 0.3;

export interface DisturbedState {
  readonly kind: DisturbanceKind;
  /** Seconds after the landing between which something is wrong. */
  readonly fromS: number;
  readonly toS: number;
  /** Which instrument, for what only one shows. */
  readonly instrument: InstrumentName | null;
  /** By instrument, at 10 Hz from the landing; null: missing. */
  readonly shownDeg: Readonly<Record<InstrumentName, readonly (number | null)[]>>;
  /** The same without the disturbance, of the first instrument. */
  readonly cleanDeg: readonly number[];
  /** Mean heel at each sample: where she would come to rest, what lasts included. */
  readonly restDeg: readonly number[];
  /** How far the disturbance moves her at each sample. */
  readonly movedDeg: readonly number[];
}

export function drawnVessel(seed: number): DrawnVessel {
  const random = createRandom(seed, 'vessel');
  return {
    periodS: random.between(3, 8),
    dampingRatio: Math.exp(random.between(Math.log(0.025), Math.log(0.1))),
    rollDeg: Math.exp(random.between(Math.log(0.02), Math.log(0.15))),
    noiseDeg: Math.exp(random.between(Math.log(0.002), Math.log(0.01))),
    windDeg: Math.exp(random.between(Math.log(0.001), Math.log(0.005))),
  };
}

/** Forcing in degrees of heel it would hold her at, by the time since it began. */
type Forcing = (sinceS: number) => number;

interface Drawn {
  readonly kind: DisturbanceKind;
  readonly fromS: number;
  readonly lengthS: number;
  readonly forcing: Forcing;
  readonly sizeDeg: number;
}

const smooth = (share: number) => {
  const inside = Math.min(1, Math.max(0, share));
  return inside * inside * (3 - 2 * inside);
};

/** One of everything that may happen, sizes drawn so that some are too small to matter. */
function drawn(kind: DisturbanceKind, random: Random, fromS: number): Drawn {
  const side = random.uniform() < 0.5 ? -1 : 1;
  const sizeDeg = side * Math.exp(random.between(Math.log(0.05), Math.log(0.8)));
  const none = { kind, fromS, sizeDeg, forcing: () => 0 };
  switch (kind) {
    case 'wake': {
      const speedMS = random.between(3.5, 7);
      const distanceM = random.between(40, 120);
      const frequency = (Math.sqrt(1.5) * GRAVITY_M_S2) / (2 * Math.PI * speedMS);
      const rise = GRAVITY_M_S2 / (4 * Math.PI * distanceM);
      const forcing: Forcing = (s) => {
        if (s <= 0) return 0;
        const height = (1 - Math.exp(-((s / 2.5) ** 2))) * Math.exp(-s / 13);
        const turns = frequency * s + (rise * s * s) / 2;
        // Short waves lift both sides at once.
        const felt = Math.exp(-(((frequency + rise * s) / 0.6) ** 2));
        return sizeDeg * height * felt * Math.sin(2 * Math.PI * turns);
      };
      return { ...none, lengthS: 30, forcing };
    }
    case 'gust': {
      const risingS = random.between(2, 5);
      const fallingS = random.between(8, 20);
      const forcing: Forcing = (s) => {
        const share = s < risingS ? s / risingS : 1 - (s - risingS) / fallingS;
        return share <= 0 ? 0 : (sizeDeg / 2) * (1 - Math.cos(Math.PI * share));
      };
      return { ...none, lengthS: risingS + fallingS, forcing };
    }
    case 'wind': {
      const risingS = random.between(8, 20);
      const forcing: Forcing = (s) => sizeDeg * smooth(s / risingS);
      return { ...none, lengthS: risingS, forcing };
    }
    case 'moved': {
      const walkS = random.between(1.5, 3);
      const stays = random.uniform() < 0.5;
      const backS = walkS + random.between(8, 25);
      const forcing: Forcing = (s) =>
        sizeDeg * (smooth(s / walkS) - (stays ? 0 : smooth((s - backS) / walkS)));
      const lengthS = stays ? walkS : backS + walkS;
      return { ...none, lengthS, forcing };
    }
    case 'line':
      return { ...none, lengthS: random.between(15, 60) };
    case 'knock':
      return { ...none, lengthS: random.uniform() < 0.5 ? 300 : random.between(0.5, 2) };
    case 'drift':
      return { ...none, lengthS: random.between(20, 60) };
    case 'none':
      return { ...none, lengthS: 0 };
    default:
      return { ...none, lengthS: random.between(4, 20) };
  }
}

interface Course {
  readonly heelDeg: number[];
  /** Where what turns her now would hold her. */
  readonly heldDeg: number[];
}

/** Roll from the landing on; the same seed gives the same chance with and without a disturbance. */
function course(
  vessel: DrawnVessel,
  random: Random,
  samples: number,
  pushed: (k: number, heelDeg: number) => number,
): Course {
  const step = rollStep(vessel, STEP_S);
  const l11 = Math.sqrt(step.q11);
  const l21 = l11 > 0 ? step.q12 / l11 : 0;
  const l22 = Math.sqrt(Math.max(0, step.q22 - l21 * l21));
  const phase = random.between(0, 2 * Math.PI);
  const ringingDeg = random.between(0.1, 1);
  let roll = random.normal(vessel.rollDeg) + ringingDeg * Math.cos(phase);
  let rate = random.normal(vessel.rollDeg) + ringingDeg * Math.sin(phase);
  const gustTimesS = [3, 12, 50];
  const winds = gustTimesS.map(() => random.normal(vessel.windDeg / Math.sqrt(3)));
  const heelDeg: number[] = [];
  const heldDeg: number[] = [];
  for (let k = 0; k < samples; k++) {
    gustTimesS.forEach((timeS, n) => {
      const kept = Math.exp(-STEP_S / timeS);
      const fresh = random.normal(vessel.windDeg * Math.sqrt((1 - kept * kept) / 3));
      winds[n] = kept * winds[n]! + fresh;
    });
    const held = winds.reduce((sum, wind) => sum + wind, 0) + pushed(k, roll);
    const [first, second] = [random.normal(), random.normal()];
    const off = roll - held;
    roll = held + step.a11 * off + step.a12 * rate + l11 * first;
    rate = step.a21 * off + step.a22 * rate + l21 * first + l22 * second;
    heelDeg.push(roll);
    heldDeg.push(held);
  }
  return { heelDeg, heldDeg };
}

/** One state of a day, from the landing on. `meanDeg`: where the weights hold her. */
export function disturbedState(
  vessel: DrawnVessel,
  given: {
    readonly seed: number;
    readonly kind: DisturbanceKind;
    readonly meanDeg: number;
    readonly lengthS: number;
    /** The disturbance begins within this time. */
    readonly withinS: number;
  },
): DisturbedState {
  const { seed, kind, meanDeg, lengthS, withinS } = given;
  const samples = Math.round(lengthS / STEP_S);
  const random = createRandom(seed, `disturbance ${kind}`);
  const what = drawn(kind, random, random.between(3, Math.max(4, withinS)));
  const chance = () => createRandom(seed, 'roll');
  const clean = course(vessel, chance(), samples, () => 0);
  // A line comes taut a little beyond where she lies, and holds her back like a spring.
  const tautDeg = random.between(0, 1.2) * vessel.rollDeg;
  const stiffness = random.between(0.5, 2);
  const side = Math.sign(what.sizeDeg);
  const disturbed = course(vessel, chance(), samples, (k, heel) => {
    const sinceS = k * STEP_S - what.fromS;
    if (kind !== 'line') return what.forcing(sinceS);
    const touches = sinceS > 0 && sinceS < what.lengthS;
    return touches ? -side * stiffness * Math.max(0, side * heel - tautDeg) : 0;
  });
  const own = ['knock', 'drift', 'silent', 'stuck', 'saturated', 'vibration'].includes(kind);
  const instrument = own ? INSTRUMENTS[Math.floor(random.uniform() * INSTRUMENTS.length)]! : null;
  const shownDeg = Object.fromEntries(
    INSTRUMENTS.map((name, n) => {
      const noise = createRandom(seed, `noise ${name}`);
      const shown = disturbed.heelDeg.map((heel, k) => {
        const aloft = name === 'mast' ? MORE_ROLL_ALOFT * (heel - disturbed.heldDeg[k]!) : 0;
        const read = meanDeg + ZERO_STEP_DEG * n + heel + aloft + noise.normal(vessel.noiseDeg);
        return name === instrument ? spoiled(what, k, read, random, vessel) : read;
      });
      return [name, instrument === name && kind === 'stuck' ? frozen(what, shown) : shown];
    }),
  ) as unknown as DisturbedState['shownDeg'];
  const noise = createRandom(seed, `noise ${INSTRUMENTS[0]}`);
  return {
    kind,
    fromS: what.fromS,
    toS: what.fromS + what.lengthS,
    instrument,
    shownDeg,
    cleanDeg: clean.heelDeg.map((heel) => meanDeg + heel + noise.normal(vessel.noiseDeg)),
    restDeg: clean.heelDeg.map(
      (_, k) =>
        meanDeg + (kind === 'moved' || kind === 'wind' ? what.forcing(k * STEP_S - what.fromS) : 0),
    ),
    movedDeg: disturbed.heelDeg.map((heel, k) => heel - clean.heelDeg[k]!),
  };
}

/** What the one instrument shows that is not as it should be. */
function spoiled(
  what: Drawn,
  k: number,
  readDeg: number,
  random: Random,
  vessel: DrawnVessel,
): number | null {
  const sinceS = k * STEP_S - what.fromS;
  if (sinceS < 0) return readDeg;
  if (what.kind === 'drift') return readDeg + what.sizeDeg * Math.min(1, sinceS / what.lengthS);
  if (sinceS > what.lengthS) return readDeg;
  switch (what.kind) {
    case 'knock':
      return readDeg + what.sizeDeg;
    case 'silent':
      return null;
    case 'saturated':
      return Math.sign(what.sizeDeg) * 30;
    case 'vibration':
      return readDeg + random.normal(Math.abs(what.sizeDeg) + 6 * vessel.noiseDeg);
    default:
      return readDeg;
  }
}

function frozen(what: Drawn, shown: readonly (number | null)[]): (number | null)[] {
  const first = Math.ceil(what.fromS / STEP_S);
  const last = Math.floor((what.fromS + what.lengthS) / STEP_S);
  return shown.map((value, k) => (k > first && k <= last ? shown[first]! : value));
}
