import { chiSquaredBeyond } from '../numerics/chi-squared.ts';
import { studentTBeyond } from '../numerics/student-t.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';

/** Period and damping of the roll as one state's reading shows them. */
export interface RingDown {
  readonly state: number;
  readonly periodS: number;
  /** One standard uncertainty; null in records made before readings said so. */
  readonly periodUncertaintyS: number | null;
  readonly dampingRatio: number;
}

/** States whose roll is not that of the others. */
export interface RingDownChange {
  readonly matter: 'period' | 'damping';
  /** One state by itself, or all from one on. */
  readonly kind: 'one-state' | 'from-state';
  readonly states: readonly number[];
  /** So much longer, or so much more damped, as a share. */
  readonly change: number;
  /** Of so much by chance, in as many places as were looked at. */
  readonly probability: number;
  readonly words: string;
}

export interface RingDowns {
  readonly states: readonly RingDown[];
  /** Mean over the states; null for fewer than three. */
  readonly periodS: Uncertain | null;
  readonly dampingRatio: number | null;
  /** Is the pooled period known to better than 1 %, at 95 %? What is less sure is no check. */
  readonly sharp: boolean;
  readonly changes: readonly RingDownChange[];
}

const FEWEST = 3;
/** All ours: what is looked at, and how sure. */
const LEVEL = 0.01;
const LEAST_PERIOD_CHANGE = 0.01;
const LEAST_DAMPING_CHANGE = 0.3;
const FEWEST_FOR_SCATTER = 5;
const SHARP = 0.01;

/**
 * A hull left alone rolls alike in every state. One that does not has touched something or has been
 * changed: a taut line, a fender or the ground stiffens and damps her, liquid set free softens her.
 * Each state is set against the others, and all states from one on against those before, by the
 * uncertainties of their periods where all have one, and by the scatter of the others.
 */
export function ringDownsOf(states: readonly RingDown[]): RingDowns {
  const damping = states.reduce((sum, one) => sum + one.dampingRatio, 0) / states.length;
  const nothing = { states, periodS: null, dampingRatio: null, sharp: false, changes: [] };
  if (states.length < FEWEST) return nothing;
  const periods = states.map((one) => one.periodS);
  const own = states.every((one) => one.periodUncertaintyS !== null)
    ? states.map((one) => one.periodUncertaintyS!)
    : null;
  const { mean, deviation, degreesOfFreedom } = groupOf(periods, own);
  const changes = [
    ...changesIn('period', states, periods, own, LEAST_PERIOD_CHANGE),
    ...changesIn(
      'damping',
      states,
      states.map((one) => Math.log(Math.max(one.dampingRatio, 1e-4))),
      null,
      LEAST_DAMPING_CHANGE,
    ),
  ];
  const halfWidth = 2 * deviation;
  return {
    states,
    periodS: { value: mean, standardUncertainty: deviation, degreesOfFreedom },
    dampingRatio: damping,
    // no scatter at all, where nothing else is known, is no knowledge
    sharp: halfWidth > 0 && halfWidth / mean < SHARP,
    changes,
  };
}

interface Group {
  readonly mean: number;
  /** Of the mean. */
  readonly deviation: number;
  readonly degreesOfFreedom: number;
}

/** Mean of a group: weighted by its members' own uncertainties, widened where they scatter beyond those. */
function groupOf(values: readonly number[], own: readonly number[] | null): Group {
  const weights = values.map((_, k) => (own === null ? 1 : own[k]! ** -2));
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = values.reduce((sum, value, k) => sum + weights[k]! * value, 0) / whole;
  const squares = values.reduce((sum, value, k) => sum + weights[k]! * (value - mean) ** 2, 0);
  const freedom = values.length - 1;
  if (own === null) {
    const deviation = freedom === 0 ? 0 : Math.sqrt(squares / freedom / values.length);
    return { mean, deviation, degreesOfFreedom: Math.max(freedom, 1) };
  }
  const wide = freedom > 0 && chiSquaredBeyond(squares, freedom) < 0.05;
  const widening = wide ? squares / freedom : 1;
  return {
    mean,
    deviation: Math.sqrt(widening / whole),
    degreesOfFreedom: wide ? freedom : Number.POSITIVE_INFINITY,
  };
}

function changesIn(
  matter: RingDownChange['matter'],
  states: readonly RingDown[],
  values: readonly number[],
  own: readonly number[] | null,
  least: number,
): RingDownChange[] {
  const count = values.length;
  if (own === null && count < FEWEST_FOR_SCATTER) return [];
  const all = values.map((_, k) => k);
  const places: { kind: RingDownChange['kind']; odd: number[] }[] = [
    ...all.map((k) => ({ kind: 'one-state' as const, odd: [k] })),
    ...all.slice(2, count - 1).map((k) => ({ kind: 'from-state' as const, odd: all.slice(k) })),
  ];
  const looked = places.map((place) => ({ ...place, ...against(place.odd, values, own) }));
  const best = looked.reduce((one, other) => (other.probability < one.probability ? other : one));
  const probability = Math.min(1, best.probability * places.length);
  const change = matter === 'period' ? best.difference / best.others : Math.expm1(best.difference);
  if (probability > LEVEL || Math.abs(change) < least) return [];
  const odd = best.odd.map((k) => states[k]!.state);
  const words = wordsOf(matter, best.kind, odd, change);
  return [{ matter, kind: best.kind, states: odd, change, probability, words }];
}

/** A group of states against all others: the difference of the means, and of so much by chance. */
function against(odd: readonly number[], values: readonly number[], own: readonly number[] | null) {
  const pick = (column: readonly number[], wanted: boolean) =>
    column.filter((_, k) => odd.includes(k) === wanted);
  const inside = groupOf(pick(values, true), own && pick(own, true));
  const others = groupOf(pick(values, false), own && pick(own, false));
  const difference = inside.mean - others.mean;
  const spread =
    own === null
      ? scatterSpread(pick(values, true), pick(values, false))
      : {
          deviation: Math.hypot(inside.deviation, others.deviation),
          degreesOfFreedom: Math.min(inside.degreesOfFreedom, others.degreesOfFreedom),
        };
  const probability =
    spread.deviation === 0
      ? Number(difference === 0)
      : studentTBeyond(difference / spread.deviation, spread.degreesOfFreedom);
  return { difference, others: others.mean, probability };
}

/** Both groups scatter alike about their own means. */
function scatterSpread(inside: readonly number[], others: readonly number[]) {
  const squares = [inside, others].reduce((sum, group) => {
    const mean = group.reduce((total, value) => total + value, 0) / group.length;
    return sum + group.reduce((total, value) => total + (value - mean) ** 2, 0);
  }, 0);
  const degreesOfFreedom = inside.length + others.length - 2;
  const share = 1 / inside.length + 1 / others.length;
  return { deviation: Math.sqrt((squares / degreesOfFreedom) * share), degreesOfFreedom };
}

function wordsOf(
  matter: RingDownChange['matter'],
  kind: RingDownChange['kind'],
  states: readonly number[],
  change: number,
): string {
  const where = kind === 'one-state' ? `At state ${states[0]}` : `From state ${states[0]} on`;
  const share = `${Math.abs(100 * change).toFixed(matter === 'period' ? 1 : 0)} %`;
  if (matter === 'damping') {
    return change > 0
      ? `${where} her roll dies ${share} faster: something rubs or drags. Look for a fender, a line in the water, the ground, or liquid moving.`
      : `${where} her roll dies ${share} slower than in the other states: look for what touched her there.`;
  }
  const stiffness = `${Math.abs(100 * ((1 + change) ** -2 - 1)).toFixed(1)} %`;
  return change < 0
    ? `${where} she rolls ${share} faster, ${stiffness} stiffer: something holds her. Look for a taut line, a fender, the ground under her.`
    : `${where} she rolls ${share} slower, ${stiffness} softer: look for liquid set free, in tanks, bilges or on deck, or for what held her in the other states.`;
}
