import { Fault } from '../fault/fault.ts';
import { checkAllFinite, checkEqualLength, checkFinite, checkPositive } from '../quantity/check.ts';
import { fitLine, type LineFit } from './line.ts';
import type { LineReadings } from './line-model.ts';

/** A test brought to what GM needs. Mass, length and moment are of one consistent set of units. */
export interface GmProblem {
  readonly displacement: number;
  /** Athwartships moment of everything moved since the first state, starboard positive. */
  readonly heelingMoments: readonly number[];
  /** Vertical moment of the same, upward positive; all zero when weights stay at their height. */
  readonly verticalMoments: readonly number[];
  readonly tangents: readonly (readonly (number | null)[])[];
  readonly ownVariances?: readonly number[];
  /**
   * c2 of the metacentre's movement, a length; 0 gives the classical answer. With it
   * KN / cos(heel) = KM tan + c2 tan^3, exact for wall-sided hulls, third order for others.
   */
  readonly metacentreMovement: number;
  /**
   * Righting lever over cos(heel) less KM times tangent, by tangent from upright and state, where
   * the hull is known: the exact equation. `metacentreMovement` comes on top of it.
   */
  readonly excess?: (tangent: number, state: number) => number;
  /**
   * True tangent of heel in the first state, as freeboards show it, where the instruments' own
   * zero is not to be trusted for the list; else the mean of their intercepts stands for it.
   */
  readonly firstTangent?: number;
  /** Where the instruments drift together: a time of each state, in any one unit. */
  readonly driftTimes?: readonly number[];
}

export interface GmSolution {
  /** Fluid GM, upright, as inclined in the first state. */
  readonly gm: number;
  /** Line of tangent on the moments that remain after rise of weights and metacentre's movement. */
  readonly fit: LineFit;
  readonly momentsFitted: readonly number[];
}

const MOST_ROUNDS = 60;
/** Relative change of the slope that is rounding. */
const CLOSE_ENOUGH = 1e-11;

/**
 * Fluid GM from the line of tangent on moment: GM = 1 / (displacement * slope).
 *
 * A steady heel obeys (TCG + m_y/D) cos + (KG + m_z/D) sin = KN. Divided by the cosine and with
 * KN / cos = KM t + c2 t^3 this is m_y + m_z t - D c2 t^3 = D (GM t - TCG): a straight line in t
 * once the two small terms have been taken to the side of the moment. Where the hull is known, the
 * whole of KN / cos - KM t (`excess`) stands in place of c2 t^3: nothing is small any more. The terms
 * need the heel from upright, for which the line's own value stands (the list being the mean of the
 * instruments' intercepts, unless it is given), found by repetition; so the scatter of a reading never gets into its own moment.
 */
export function solveGm(problem: GmProblem, varianceRatio?: number, near?: GmSolution): GmSolution {
  checkProblem(problem);
  const plain = near?.fit ?? fitProblem(problem, problem.heelingMoments, varianceRatio);
  let solution = { momentsFitted: problem.heelingMoments, fit: plain };
  const level = problem.verticalMoments.every((moment) => moment === 0);
  const bent = problem.metacentreMovement !== 0 || problem.excess !== undefined || !level;
  if (!bent && near !== undefined) {
    solution = { ...solution, fit: fitProblem(problem, problem.heelingMoments, varianceRatio) };
  }
  if (bent) {
    // a bend counts as scatter until it is taken off, so the states' variance is learned anew once
    solution = settled(problem, solution, plain.varianceRatio);
    if (varianceRatio === undefined) {
      const straight = fitProblem(problem, solution.momentsFitted, undefined);
      solution = settled(problem, { ...solution, fit: straight }, straight.varianceRatio);
    }
  }
  const slope = solution.fit.slope.value;
  if (!(slope > 0)) {
    throw new Fault(
      'line-not-determined',
      'slope',
      `${slope}: she does not heel towards the moment; check the signs`,
    );
  }
  return { gm: 1 / (problem.displacement * slope), ...solution };
}

interface Fitted {
  readonly momentsFitted: readonly number[];
  readonly fit: LineFit;
}

/** The line and the moments that belong to it, by repetition with the states weighed alike. */
function settled(problem: GmProblem, start: Fitted, varianceRatio: number): Fitted {
  const { displacement, heelingMoments, verticalMoments, metacentreMovement, excess } = problem;
  let { fit } = start;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = fit;
    const tangents = trueTangents(problem, before);
    const momentsFitted = heelingMoments.map((moment, state) => {
      const tangent = tangents[state]!;
      const bend = metacentreMovement * tangent ** 3 + (excess?.(tangent, state) ?? 0);
      const movement = displacement * bend;
      return moment + verticalMoments[state]! * tangent - movement;
    });
    fit = fitProblem(problem, momentsFitted, varianceRatio);
    const change = Math.abs(fit.slope.value - before.slope.value);
    if (change <= CLOSE_ENOUGH * Math.abs(before.slope.value)) return { momentsFitted, fit };
  }
  throw new Fault('no-convergence', 'GM', `c2 ${metacentreMovement} after ${MOST_ROUNDS} rounds`);
}

/** Tangents from upright of the states as fitted: the list as given, or as the instruments have it. */
export function trueTangents({ firstTangent }: GmProblem, { fittedTangents }: LineFit): number[] {
  const first = fittedTangents[0]!;
  const off = (firstTangent ?? first) - first;
  return fittedTangents.map((tangent) => tangent + off);
}

function fitProblem(
  problem: GmProblem,
  moments: readonly number[],
  varianceRatio: number | undefined,
): LineFit {
  return fitLine(lineReadingsOf(problem, moments), varianceRatio);
}

/** The readings of a problem as the line sees them, with the moments given. */
export function lineReadingsOf(problem: GmProblem, moments: readonly number[]): LineReadings {
  const { tangents, ownVariances, driftTimes } = problem;
  return {
    moments,
    tangents,
    ...(ownVariances === undefined ? {} : { ownVariances }),
    ...(driftTimes === undefined ? {} : { driftTimes }),
  };
}

function checkProblem(problem: GmProblem): void {
  checkPositive(problem.displacement, 'displacement');
  checkFinite(problem.metacentreMovement, 'metacentreMovement');
  checkEqualLength(problem.heelingMoments, problem.verticalMoments, 'heeling, vertical moments');
  checkAllFinite(problem.heelingMoments, 'heelingMoments');
  checkAllFinite(problem.verticalMoments, 'verticalMoments');
}
