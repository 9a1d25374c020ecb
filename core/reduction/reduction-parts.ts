import { plainDegreesOfFreedom, plainUncertain } from '../numerics/coverage.ts';
import { degreesFromRadians } from '../quantity/angle.ts';
import type { Uncertain } from '../quantity/uncertainty.ts';
import { mayOmitRest, NO_SKIPPING } from '../shift/skip-rules.ts';
import type { Answer } from './budget.ts';
import type { CannotShow } from './cannot-show.ts';
import { diagnosePlot } from './diagnosis.ts';
import type { GmProblem } from './gm.ts';
import { leaveOneOut } from './leave-one-out.ts';
import { moveMisfits, type OneWeightMove } from './move-misfit.ts';
import { stiffnessOfOneShift } from './one-shift.ts';
import { causesOut } from './reduction-of-causes.ts';
import type { Figure, ReductionOutput } from './reduction-output.ts';
import { seenSpacesEvidence } from './seen-spaces.ts';
import { compareSides } from './sides.ts';
import type { TestInput } from './test-input.ts';
import type { TestProblem } from './test-problem.ts';

/** Units as words: of moment, of GM (of stiffness where no displacement is given), of the slope. */
export interface UnitWords {
  readonly mass: string;
  readonly length: string;
  readonly moment: string;
}

export function inDegrees(tangent: number): number {
  return degreesFromRadians(Math.atan(tangent));
}

export function figure(uncertain: Uncertain, unit: string): Figure {
  return { ...plainUncertain(uncertain), unit };
}

export function budgetOut(
  { budget }: Answer,
  unit: string,
): ReductionOutput['classical']['budget'] {
  return budget.map((row) => ({
    cause: row.cause,
    gm: row.gm,
    kg: row.kg,
    unit,
    degreesOfFreedom: plainDegreesOfFreedom(row.degreesOfFreedom),
  }));
}

export function leaveOneOutOut(
  test: TestInput,
  { stateNames }: TestProblem,
  problem: GmProblem,
): ReductionOutput['leaveOneOut'] {
  return leaveOneOut(problem).map(({ left, place, gm, change }) => ({
    left: left === 'state' ? `state ${stateNames[place]}` : test.instruments[place]!.instrument,
    gm,
    change,
  }));
}

/** Shifts of a single weight across; others cannot be told apart. */
export function movesOut(
  test: TestInput,
  { stateNames }: TestProblem,
  { solution: { fit, momentsFitted } }: Answer,
): ReductionOutput['moves'] {
  const masses = new Map((test.weights ?? []).map((one) => [one.weight, one.mass]));
  const moves = test.states.flatMap((state, k): OneWeightMove[] => {
    const [only, ...more] = state.moves ?? [];
    if (k === 0 || only === undefined || more.length > 0 || only.distance === 0) return [];
    const { weight, distance } = only;
    return [{ state: k, weight, distance, mass: masses.get(weight)! }];
  });
  return moveMisfits(moves, momentsFitted, fit).map(({ writtenTangent, seenTangent, ...one }) => ({
    ...one,
    state: stateNames[one.state]!,
    onBatten: test.instruments.flatMap((each) =>
      each.reads === 'deflection' || each.reads === 'level-difference'
        ? [
            {
              instrument: each.instrument,
              written: each.length * writtenTangent,
              seen: each.length * seenTangent,
              off: each.length * (seenTangent - writtenTangent),
            },
          ]
        : [],
    ),
  }));
}

export function sidesOut(
  units: UnitWords,
  { solution: { fit, momentsFitted } }: Answer,
): ReductionOutput['sides'] {
  const { starboard, port, zeroJump } = compareSides(momentsFitted, fit.stateTangents);
  const stiffness = (line: { slope: number } | null) =>
    line === null || !(line.slope > 0) ? null : { stiffness: 1 / line.slope, unit: units.moment };
  return {
    starboard: stiffness(starboard),
    port: stiffness(port),
    zeroJump:
      zeroJump === null || !(zeroJump.slope > 0)
        ? null
        : {
            jumpDeg: inDegrees(zeroJump.jump),
            stiffness: 1 / zeroJump.slope,
            test: zeroJump.test,
          },
  };
}

export function pointsOut(
  test: TestInput,
  { problem, stateNames }: TestProblem,
  { solution: { fit, momentsFitted } }: Answer,
): ReductionOutput['points'] {
  return stateNames.map((state, i) => ({
    state,
    heelingMoment: problem.heelingMoments[i]!,
    momentFitted: momentsFitted[i]!,
    tangent: fit.stateTangents[i]!,
    fittedTangent: fit.fittedTangents[i]!,
    leftOverDeg: inDegrees(fit.stateTangents[i]!) - inDegrees(fit.fittedTangents[i]!),
    readings: test.instruments.flatMap(({ instrument }, j) => {
      const tangent = problem.tangents[i]![j]!;
      const residual = fit.readingResiduals[i]![j]!;
      if (tangent === null || residual === null) return [];
      const leftOverDeg = inDegrees(tangent) - inDegrees(tangent - residual);
      return [{ instrument, tangent, leftOverDeg }];
    }),
  }));
}

export function shiftsOut(
  { stateNames }: TestProblem,
  units: UnitWords,
  { solution: { fit, momentsFitted } }: Answer,
): ReductionOutput['shiftByShift'] {
  return stateNames.slice(1).flatMap((to, k) => {
    const momentChange = momentsFitted[k + 1]! - momentsFitted[k]!;
    const tangentChange = fit.stateTangents[k + 1]! - fit.stateTangents[k]!;
    if (momentChange === 0 || tangentChange === 0) return [];
    const stiffness = stiffnessOfOneShift(momentChange, tangentChange);
    return [{ from: stateNames[k]!, to, stiffness, unit: units.moment }];
  });
}

export function diagnosisOut(
  test: TestInput,
  asked: TestProblem,
  answer: Answer,
): ReductionOutput['diagnosis'] {
  const { stateNames, weightMoments } = asked;
  const { solution, readings } = answer;
  const { troubleSeen, verdict, shapes } = diagnosePlot({
    readings,
    fit: solution.fit,
    stateNames,
    instrumentNames: test.instruments.map((one) => one.instrument),
    instrumentScaleUncertainties: test.instruments.map((one) => one.scaleUncertainty ?? 0),
    weights: weightMoments,
  });
  const named = shapes.map(({ places: _, ...shape }) => ({
    ...shape,
    degreesOfFreedom:
      shape.degreesOfFreedom === null ? null : plainDegreesOfFreedom(shape.degreesOfFreedom),
    states: shape.states.map((i) => stateNames[i]!),
    instrument: shape.instrument === null ? null : test.instruments[shape.instrument]!.instrument,
    weight: shape.weight === null ? null : weightMoments[shape.weight]!.weight,
  }));
  return { troubleSeen, verdict, shapes: named, causes: causesOut(test, asked, answer, named) };
}

/** Evidence as written; where displacement and KM are only stated, that is said. */
export function statedEvidence(test: TestInput): Partial<Record<CannotShow, string>> {
  return {
    ...(test.displacement === undefined ? {} : { displacement: 'stated in the test' }),
    ...(test.km === undefined ? {} : { km: 'stated in the test' }),
    ...test.evidence,
  };
}

/** Free liquid of full width: by the spaces seen, whatever words were written. */
export function liquidEvidence(test: TestInput): Partial<Record<CannotShow, string>> {
  const liquid = seenSpacesEvidence(test.spacesSeen ?? [], test.evidence?.['full-width-liquid']);
  return liquid === null ? {} : { 'full-width-liquid': liquid };
}

/** Movements are changes from one state to the next; the first state is the zero. */
export function mayOmitOut(
  test: TestInput,
  { problem }: TestProblem,
  straight: boolean,
): ReductionOutput['mayOmit'] {
  const zeroRead = problem.tangents[0]!.some((tangent) => tangent !== null);
  return mayOmitRest(
    test.skipRules ?? NO_SKIPPING,
    problem.heelingMoments.length - 1,
    zeroRead,
    straight,
  );
}

export function notStated(test: TestInput): string[] {
  const byMoves = test.states.some((one) => one.moves !== undefined);
  const missing = [
    ...test.instruments
      .filter((one) => one.scaleUncertainty === undefined)
      .map((one) => `scale of ${one.instrument}`),
    ...(byMoves && test.distanceUncertainty === undefined ? ['distances moved'] : []),
    ...(byMoves
      ? (test.weights ?? [])
          .filter((one) => one.standardUncertainty === undefined)
          .map((one) => `mass of ${one.weight}`)
      : []),
    ...(!byMoves && test.momentScaleUncertainty === undefined ? ['scale of the moments'] : []),
  ];
  const common = test.angleScaleUncertainty !== undefined;
  return common
    ? missing.filter((one) => !one.startsWith('scale of ') || one.endsWith('moments'))
    : missing;
}
