import { studentTQuantile } from '../numerics/student-t.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import { COEFFICIENT_SCATTER, gmOfPeriod } from './roll-coefficient.ts';

/** Under this GM a roll test is unreliable (A.749(18) annex 3, 3.7-3.8, from memory). */
export const UNRELIABLE_UNDER_GM_M = 0.2;

/** Fluid GM by one coefficient. */
export interface GmByRoll {
  readonly by: 'table' | 'c' | 'own';
  readonly f: number;
  /** Half the width about f that it may lie in; null: the text states none. */
  readonly fHalfWidth: number | null;
  readonly gmFluidM: number;
  /** Half the width of GM by f and by the period at 95 %; null where that of f is not stated. */
  readonly halfWidthM: number | null;
  /** The same by the period alone. */
  readonly periodHalfWidthM: number;
  /** GM, or what is left of it at its lower end, is under 0.20 m. */
  readonly small: boolean;
  readonly source: string;
}

/** What the period and a coefficient make of GM; the beam is taken as measured without error. */
export function gmByRoll(
  by: GmByRoll['by'],
  coefficient: { f: number; fHalfWidth: number | null; source: string },
  periodS: Uncertain,
  beamM: number,
): GmByRoll {
  const { f, fHalfWidth, source } = coefficient;
  const gmFluidM = gmOfPeriod(f, beamM, periodS.value);
  const quantile = studentTQuantile(0.975, periodS.degreesOfFreedom);
  const periodHalfWidthM = (2 * gmFluidM * quantile * periodS.standardUncertainty) / periodS.value;
  const halfWidthM =
    fHalfWidth === null ? null : Math.hypot((2 * gmFluidM * fHalfWidth) / f, periodHalfWidthM);
  return {
    by,
    f,
    fHalfWidth,
    gmFluidM,
    halfWidthM,
    periodHalfWidthM,
    small: gmFluidM - (halfWidthM ?? periodHalfWidthM) < UNRELIABLE_UNDER_GM_M,
    source,
  };
}

/** Scatter of a table's f as a share of GM: 0.114 at 0.88, 0.137 at 0.73. */
export const tableShareOfGm = (f: number) => (2 * COEFFICIENT_SCATTER) / f;

/** How the roll's GM stands beside one measured by inclining. */
export interface RollBeside {
  readonly differenceM: number;
  readonly halfWidthM: number | null;
  readonly answer: 'no-evidence' | 'disagrees' | 'agrees';
  readonly words: string;
}

/**
 * Inside the scatter of a table's coefficient agreement is no evidence: it would "agree" with any
 * GM so near. Outside it one of the two is wrong. Only her own coefficient can agree.
 */
export function rollBesideInclining(roll: GmByRoll, inclinedM: Uncertain): RollBeside {
  const differenceM = roll.gmFluidM - inclinedM.value;
  const ofInclining =
    studentTQuantile(0.975, inclinedM.degreesOfFreedom) * inclinedM.standardUncertainty;
  const halfWidthM = roll.halfWidthM === null ? null : Math.hypot(roll.halfWidthM, ofInclining);
  const share = `${((100 * differenceM) / inclinedM.value).toFixed(0)} %`;
  if (halfWidthM === null) {
    const words = `differs by ${share}; no scatter is stated for this coefficient, so this is no evidence`;
    return { differenceM, halfWidthM, answer: 'no-evidence', words };
  }
  if (Math.abs(differenceM) > halfWidthM) {
    const words = `differs by ${share}, more than coefficient and inclining leave open: one of the two is wrong`;
    return { differenceM, halfWidthM, answer: 'disagrees', words };
  }
  if (roll.by !== 'own') {
    const scatter = `${(100 * tableShareOfGm(roll.f)).toFixed(0)} %`;
    const words = `differs by ${share}, within the ${scatter} that this coefficient scatters by: no evidence`;
    return { differenceM, halfWidthM, answer: 'no-evidence', words };
  }
  const words = `differs by ${share}, within what her own coefficient and the inclining leave open`;
  return { differenceM, halfWidthM, answer: 'agrees', words };
}
