import { studentTQuantile } from '../numerics/student-t.ts';

/** The heel and its squared standard error by one model that a window leaves possible. */
export interface PossibleHeel {
  /** How likely this model is, in any unit. */
  readonly weight: number;
  readonly heelDeg: number;
  readonly variance: number;
}

/** Student's t with a scale: what is stated of a heel. */
export interface HeelLaw {
  readonly variance: number;
  readonly degreesOfFreedom: number;
}

/** Degrees of freedom that are tried; beyond the last the law is normal for all purposes. */
const FEWEST_DEGREES = 1.5;
const MOST_DEGREES = 400;
const DEGREES_TRIED = 60;
const TWO_THIRDS = 0.6827;
const MOST = 0.95;

interface TriedLaw {
  readonly degreesOfFreedom: number;
  /** Half width of the 95 % interval over that of the 68 % one, and in scales. */
  readonly ratio: number;
  readonly t95: number;
}

let triedLaws: readonly TriedLaw[] | null = null;

function lawsToTry(): readonly TriedLaw[] {
  triedLaws ??= Array.from({ length: DEGREES_TRIED }, (_, k) => {
    const degreesOfFreedom =
      FEWEST_DEGREES * (MOST_DEGREES / FEWEST_DEGREES) ** (k / (DEGREES_TRIED - 1));
    const t95 = studentTQuantile(0.5 + MOST / 2, degreesOfFreedom);
    const t68 = studentTQuantile(0.5 + TWO_THIRDS / 2, degreesOfFreedom);
    return { degreesOfFreedom, ratio: t95 / t68, t95 };
  });
  return triedLaws;
}

/**
 * The Student's t about `heelDeg` that holds as much within its 68 and 95 % intervals as all the
 * possible heels together do, each normal by its own variance.
 */
export function heelLawOf(heelDeg: number, possible: readonly PossibleHeel[]): HeelLaw {
  const narrow = halfWidth(heelDeg, possible, TWO_THIRDS);
  const wide = halfWidth(heelDeg, possible, MOST);
  const laws = lawsToTry();
  let least = 0;
  let most = laws.length - 1;
  while (most - least > 1) {
    const middle = (least + most) >> 1;
    if (laws[middle]!.ratio > wide / narrow) least = middle;
    else most = middle;
  }
  const law = laws[most]!;
  return { variance: (wide / law.t95) ** 2, degreesOfFreedom: law.degreesOfFreedom };
}

/** Half width about `heelDeg` that holds this share of the mixture; by halving, to a millionth. */
function halfWidth(heelDeg: number, possible: readonly PossibleHeel[], share: number): number {
  let total = 0;
  let most = 0;
  for (const one of possible) {
    total += one.weight;
    most = Math.max(most, 6 * Math.sqrt(one.variance) + Math.abs(one.heelDeg - heelDeg));
  }
  let least = 0;
  for (let halving = 0; halving < 30; halving++) {
    const middle = (least + most) / 2;
    let held = 0;
    for (const one of possible) {
      const scale = Math.sqrt(one.variance);
      const off = one.heelDeg - heelDeg;
      held +=
        one.weight * (normalBelow((middle - off) / scale) - normalBelow((-middle - off) / scale));
    }
    if (held > share * total) most = middle;
    else least = middle;
  }
  return (least + most) / 2;
}

/** Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.17: to 7.5e-8. */
function normalBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series =
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const above = (Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)) * series;
  return z > 0 ? 1 - above : above;
}
